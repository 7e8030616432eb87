package tree

import (
	"fmt"
	"maps"
	"slices"
)

// checkLibrary checks what only shows when everything is together: complaints
// lead to trees of their system, faults are judged and repaired.
func (b *builder) checkLibrary() {
	if b.quiet || b.trusting || len(b.badFiles) > 0 {
		return
	}
	for _, s := range b.systemShapes {
		n := b.notes[s.System.Text]
		if n == nil || n.shape != s {
			continue
		}
		b.complaintTrees(n)
		b.everyFault(n)
		b.healthyCondemned(n)
	}
	b.everyService()
	b.deadStates()
}

// everyService: some system has it done, and each that does can make it safe.
func (b *builder) everyService() {
	offered := set{}
	for _, id := range slices.Sorted(maps.Keys(b.lib.Systems)) {
		s := b.lib.Systems[id]
		has := b.lib.SafeOf(s)
		for _, id := range s.Service {
			offered[id] = true
			b.madeSafe(s, b.lib.Services[id], has)
		}
	}
	for _, s := range b.lib.Services {
		if !offered[s.ID] {
			b.report(CodeUnused, s.Place, fmt.Sprintf("no system has the service %q", s.ID), "add it to a system's or shared file's service: list, or take it away")
		}
	}
}

// madeSafe: a service is for several systems, and of its needs each takes those that
// it has. One that takes none would have it done with nothing made safe.
func (b *builder) madeSafe(s *System, v *Service, has SafeItems) {
	if v != nil && len(v.Needs) > 0 && len(has.Of(v.Needs)) == 0 {
		b.report(CodeNeedsNone, v.Place, fmt.Sprintf("of what the service %q needs, system %s asks for nothing in any state, setup, work or repair", v.ID, s.ID),
			"add an item and setting of that system to the service's needs:, or take the service out of its list")
	}
}

func (b *builder) complaintTrees(n *systemNotes) {
	for _, c := range n.shape.Complaints {
		for _, w := range c.Trees {
			if t := b.lib.Trees[w.Text]; t != nil && !slices.Contains(t.Systems, n.system.ID) {
				b.report(CodeTreeSystem, w.Place, fmt.Sprintf("the tree %q isn't for system %s", t.ID, n.system.ID), "add the system to that tree's systems:")
			}
		}
	}
}

// everyFault: each is judged by a tree and cleared by a repair.
func (b *builder) everyFault(n *systemNotes) {
	judged, repaired := set{}, set{}
	trees, repairs := b.lib.TreesFor(n.system.ID), b.lib.RepairsFor(n.system.ID)
	for _, t := range trees {
		for _, id := range t.Judges {
			judged[id] = true
		}
	}
	for _, r := range repairs {
		for _, id := range r.Clears {
			repaired[id] = true
		}
	}
	for _, f := range n.system.Faults {
		if n.faults.bad[f.ID] {
			continue
		}
		if !judged[f.ID] && len(trees) > 0 {
			b.report(CodeUnjudged, f.Place, fmt.Sprintf("no tree for system %s judges %s", n.system.ID, f.ID), "add it to a tree's judges:, with a step that finds it")
		}
		if !repaired[f.ID] && len(repairs) > 0 {
			b.report(CodeNotCleared, f.Place, fmt.Sprintf("no repair for system %s clears %s", n.system.ID, f.ID), "add it to a repair's clears:")
		}
	}
	if len(trees) == 0 {
		b.report(CodeUnjudged, n.at(), fmt.Sprintf("no tree is for system %s", n.system.ID), "name the system in a tree's systems:")
	}
	if len(repairs) == 0 {
		b.report(CodeNotCleared, n.at(), fmt.Sprintf("no repair is for system %s", n.system.ID), "name the system in a repair's systems:")
	}
}
