package prove

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// Celsius is the temperature, degC, of the bench that machines are proved on.
const Celsius = 20

// BenchMeter is the commonest on a bench, and the least accurate.
const BenchMeter = "pocket"

// Plan is what is to be proved. It is read-only once made.
type Plan struct {
	options Options
	lib     *tree.Library // with a complaint for each tree alone
	meter   measure.Meter
	trees   []*tree.Tree
	reaches map[string]*reach // by tree and system
}

// NewPlan checks the names of the trees and makes ready what all units share.
func NewPlan(lib *tree.Library, o Options) (*Plan, error) {
	p := &Plan{options: o, lib: alone(lib), meter: lib.Instruments(BenchMeter), reaches: map[string]*reach{}}
	names := o.Trees
	if len(names) == 0 {
		names = whole(lib)
	}
	for _, id := range names {
		t := lib.Trees[id]
		if t == nil {
			known := slices.Sorted(maps.Keys(lib.Trees))
			hint := "; \"benchlead trees\" lists them"
			if near := source.Nearest(id, known); near != "" {
				hint = "; did you mean " + near + "?"
			}
			if lib.Systems[id] != nil {
				hint = "; that is a system, and trees are proved: " + strings.Join(treesOf(lib, id), ", ") + ". With --suspects it takes systems"
			}
			return nil, fmt.Errorf("there is no tree %q%s", id, hint)
		}
		if slices.Contains(p.trees, t) {
			continue
		}
		p.trees = append(p.trees, t)
	}
	for id, t := range lib.Trees {
		for _, system := range t.Systems {
			p.reaches[key(id, system)] = reachOf(p.lib, t, p.lib.Systems[system])
		}
	}
	return p, nil
}

// treesOf are the trees of a system that can be proved by themselves.
func treesOf(lib *tree.Library, system string) []string {
	return slices.DeleteFunc(whole(lib), func(id string) bool { return !slices.Contains(lib.Trees[id].Systems, system) })
}

// whole are the trees that can be proved by themselves: not those that judge
// nothing, nor those that are pieces of others.
func whole(lib *tree.Library) []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(lib.Trees)), func(id string) bool {
		return lib.Trees[id].Inner || len(lib.Trees[id].Judges) == 0
	})
}

// key names a tree in a system, or a step in a tree.
func key(a, b string) string { return a + "/" + b }

// complaintOf is the complaint that is answered by one tree alone. No system can
// have it: it has a space in it.
func complaintOf(tree string) string { return "prove " + tree }

// alone is the library with one more complaint for each tree, which that tree
// alone answers.
func alone(lib *tree.Library) *tree.Library {
	out := *lib
	out.Systems = map[string]*tree.System{}
	for id, sys := range lib.Systems {
		own := *sys
		own.Complaints = slices.Clone(sys.Complaints)
		for _, t := range lib.TreesFor(id) {
			own.Complaints = append(own.Complaints, tree.Complaint{
				ID: complaintOf(t.ID), Trees: []string{t.ID}, ToTheEnd: toTheEnd(sys, t.ID),
			})
		}
		out.Systems[id] = &own
	}
	return &out
}

// toTheEnd says whether every complaint that names a tree has it walked to the
// end after a repair.
func toTheEnd(sys *tree.System, id string) bool {
	named := false
	for _, c := range sys.Complaints {
		if slices.Contains(c.Trees, id) {
			if !c.ToTheEnd {
				return false
			}
			named = true
		}
	}
	return named
}

// Loads groups units by their faults, as places in the list: a Tech that runs a
// load in one go builds each machine once for all trees. Trees that walk others
// come first, because that shows which machines come to those others.
func (p *Plan) Loads(units []Unit) [][]int {
	var out [][]int
	at := map[string]int{}
	for i, u := range units {
		name := u.load()
		if _, had := at[name]; !had {
			at[name] = len(out)
			out = append(out, nil)
		}
		out[at[name]] = append(out[at[name]], i)
	}
	walks := func(i int) int { return len(p.reaches[key(units[i].Tree, units[i].System)].trees) }
	for _, load := range out {
		slices.SortStableFunc(load, func(i, j int) int { return cmp.Compare(walks(j), walks(i)) })
	}
	return out
}

// load names the machines of a unit.
func (u Unit) load() string { return fmt.Sprint(u.System, u.Faults) }

// least is the fewest machines for a fault that a tree doesn't judge, and a
// tenth is their share.
const (
	least = 10
	tenth = 10
)

// Units lists what is to be run, in a fixed order. A system without a circuit
// has none.
func (p *Plan) Units() []Unit {
	var out []Unit
	for _, t := range p.trees {
		for _, system := range t.Systems {
			sys := p.lib.Systems[system]
			if sys == nil || sys.Circuit == nil {
				continue
			}
			if p.options.Pairs {
				out = append(out, p.pairs(t, sys)...)
			} else {
				out = append(out, p.singles(t, sys)...)
			}
		}
	}
	return out
}

func (p *Plan) singles(t *tree.Tree, sys *tree.System) []Unit {
	judged := p.reaches[key(t.ID, sys.ID)].judges
	var out, others []Unit
	for _, id := range breakable(sys) {
		u := Unit{Tree: t.ID, System: sys.ID, Kind: Judged, Faults: []string{id}, Draws: p.options.Draws}
		if slices.Contains(judged, id) {
			out = append(out, u)
			continue
		}
		u.Kind, u.Draws = Other, max(least, p.options.Draws/tenth)
		others = append(others, u)
	}
	healthy := Unit{Tree: t.ID, System: sys.ID, Kind: Other, Draws: max(least, p.options.Draws/tenth)}
	return append(append(out, others...), healthy)
}

// pairs are two faults of different parts, and each fault beside every silent
// bypass: two faults of one part go with the part.
func (p *Plan) pairs(t *tree.Tree, sys *tree.System) []Unit {
	judged := p.reaches[key(t.ID, sys.ID)].judges
	faults := breakable(sys)
	var out []Unit
	for i, a := range faults {
		if !slices.Contains(judged, a) {
			continue
		}
		u := Unit{Tree: t.ID, System: sys.ID, Draws: p.options.Draws}
		for _, b := range faults[i+1:] {
			if slices.Contains(judged, b) && !bypasses(sys, a) && !bypasses(sys, b) && sys.Fault(a).Part != sys.Fault(b).Part {
				u.Kind, u.Faults = Pair, []string{a, b}
				out = append(out, u)
			}
		}
		for _, b := range faults {
			if bypasses(sys, b) && !bypasses(sys, a) {
				u.Kind, u.Faults = Bypass, []string{a, b}
				out = append(out, u)
			}
		}
	}
	return out
}

// bypassed is the caution that goes with a safety function out of action. Nothing
// is heard of such a fault until somebody needs the function.
const bypassed = "interlock-bypassed"

func bypasses(sys *tree.System, fault string) bool { return sys.Fault(fault).Danger == bypassed }

// breakable are the faults that the circuit can have, in the system's order.
func breakable(sys *tree.System) []string {
	has := map[string]bool{}
	for _, b := range sys.Circuit.Faults {
		has[b.Fault] = len(b.Ways) > 0
	}
	var out []string
	for _, f := range sys.Faults {
		if has[f.ID] {
			out = append(out, f.ID)
		}
	}
	return out
}
