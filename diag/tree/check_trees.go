package tree

import (
	"fmt"
	"slices"
)

// checkTrees checks where the steps of every tree lead. A tree in which some
// route is wrong already is left out: what follows from it would be reported
// over and over.
func (b *builder) checkTrees(drafts []*draft) {
	b.flows = map[string]*flow{}
	if b.quiet || b.trusting {
		return
	}
	b.checkSubTrees(drafts)
	b.checkInner(drafts)
	for _, d := range inner(drafts) {
		if d.broken || d.tree.Begin == "" || len(d.notes) == 0 || !b.subsKnown(d) {
			continue
		}
		b.flows[d.tree.ID] = b.flowOf(d)
		reached := b.checkReach(d)
		if b.checkLoops(d) || !reached {
			continue
		}
		b.checkRoutes(d)
		b.checkEvidence(d)
		b.checkJudges(d)
	}
}

func (b *builder) subsKnown(d *draft) bool {
	return !slices.ContainsFunc(d.tree.Steps, func(s *Step) bool { return s.Kind == Sub && b.flows[s.Tree] == nil })
}

// inner puts each tree after those that it walks.
func inner(drafts []*draft) []*draft {
	byID, done := map[string]*draft{}, map[string]bool{}
	for _, d := range drafts {
		byID[d.tree.ID] = d
	}
	var out []*draft
	var visit func(d *draft)
	visit = func(d *draft) {
		if d == nil || done[d.tree.ID] {
			return
		}
		done[d.tree.ID] = true
		for _, s := range d.tree.Steps {
			if s.Kind == Sub {
				visit(byID[s.Tree])
			}
		}
		out = append(out, d)
	}
	for _, d := range drafts {
		visit(d)
	}
	return out
}

// checkSubTrees reports trees that walk themselves, and trees for a system that
// the tree they walk isn't for.
func (b *builder) checkSubTrees(drafts []*draft) {
	told := set{}
	for _, d := range drafts {
		for _, s := range d.tree.Steps {
			sub := b.lib.Trees[s.Tree]
			if s.Kind != Sub || sub == nil {
				continue
			}
			place := d.shapes[s.ID].Walk.Place
			for _, system := range d.tree.Systems {
				if !slices.Contains(sub.Systems, system) && !b.badFiles[sub.Place.File] {
					b.report(CodeTreeSystem, place, fmt.Sprintf("the tree %q isn't for system %s", sub.ID, system), "add the system to that tree's systems:")
				}
			}
			if path := b.pathOfTrees(sub.ID, d.tree.ID, set{}); path != nil {
				d.broken = true
				if !told[d.tree.ID] {
					b.report(CodeRecursion, place, fmt.Sprintf("the tree %q walks itself: %s", d.tree.ID, arrows(append([]string{d.tree.ID}, path...))), "end one of them instead; the complaint can name both trees")
				}
				for _, id := range path {
					told[id] = true
				}
			}
		}
	}
}

// checkInner reports a piece of other trees that none of them walks.
func (b *builder) checkInner(drafts []*draft) {
	walked := set{}
	for _, d := range drafts {
		for _, s := range d.tree.Steps {
			walked[s.Tree] = true
		}
	}
	for _, d := range drafts {
		if d.tree.Inner && !walked[d.tree.ID] {
			b.report(CodeUnused, d.shape.Inner.Place, fmt.Sprintf("no tree walks %q", d.tree.ID), "walk it from another tree, or take inner: away")
		}
	}
}

// pathOfTrees is a way from one tree to another by walk: steps, or nil.
func (b *builder) pathOfTrees(from, to string, seen set) []string {
	if from == to {
		return []string{to}
	}
	if seen[from] || b.lib.Trees[from] == nil {
		return nil
	}
	seen[from] = true
	for _, s := range b.lib.Trees[from].Steps {
		if s.Kind != Sub {
			continue
		}
		if rest := b.pathOfTrees(s.Tree, to, seen); rest != nil {
			return append([]string{from}, rest...)
		}
	}
	return nil
}

// checkReach reports steps that nothing leads to. It says whether there are none.
func (b *builder) checkReach(d *draft) bool {
	reached := set{d.tree.Begin: true}
	work := []string{d.tree.Begin}
	for len(work) > 0 {
		step := d.tree.Step(work[0])
		work = work[1:]
		if step == nil {
			continue
		}
		for _, way := range d.ways(step) {
			if !reached[way.to] {
				reached[way.to] = true
				work = append(work, way.to)
			}
		}
	}
	var lost []*Step
	for _, s := range d.tree.Steps {
		if !reached[s.ID] {
			lost = append(lost, s)
		}
	}
	for _, s := range d.heads(lost) {
		b.report(CodeUnreachable, s.Place, fmt.Sprintf("nothing leads to the step %q", s.ID), "route an outcome to it, or take it away")
	}
	return len(lost) == 0
}

// heads are the steps that none of the others leads to: what follows them is
// lost with them. When they lead round to one another it is the first.
func (d *draft) heads(lost []*Step) []*Step {
	var out []*Step
	for _, s := range lost {
		if !slices.ContainsFunc(lost, func(from *Step) bool { return from != s && d.leads(from, s.ID) }) {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		return lost[:min(1, len(lost))]
	}
	return out
}

func (d *draft) leads(from *Step, to string) bool {
	return slices.ContainsFunc(d.ways(from), func(w edge) bool { return w.to == to })
}

// checkRoutes: what decides nothing finds nothing.
func (b *builder) checkRoutes(d *draft) {
	for _, s := range d.tree.Steps {
		to := d.tree.Step(s.Then[Unsure])
		if to != nil && to.Kind == Find {
			b.report(CodeUnsureFind, d.place(s.ID, Unsure), fmt.Sprintf("%q leads to %q, which finds %s: no answer would condemn a part", Unsure, to.ID, to.Fault),
				"route it to another test, or past the find")
		}
		b.checkAnswers(d, s)
	}
}

// checkLoops reports ways that go round without passing a bounded piece of
// work. It says whether there are any.
func (b *builder) checkLoops(d *draft) bool {
	told := set{}
	for _, s := range d.tree.Steps {
		loop := d.loop(s.ID)
		if loop == nil || slices.ContainsFunc(loop, func(id string) bool { return told[id] }) {
			continue
		}
		for _, id := range loop {
			told[id] = true
		}
		b.loops(d, loop)
	}
	return len(told) > 0
}

func (b *builder) loops(d *draft, loop []string) {
	around := arrows(append(slices.Clone(loop), loop[0]))
	for i, id := range loop {
		s, next := d.tree.Step(id), loop[(i+1)%len(loop)]
		if s.Kind != Do {
			continue
		}
		if s.AtMost == 0 && s.Next == next {
			b.report(CodeAtMost, s.Place, fmt.Sprintf("the steps %s go round without end: nothing says how often %q may be done", around, s.Work), "add at most: 1")
			return
		}
		if s.Else == next {
			b.report(CodeEndless, s.Place, fmt.Sprintf("the steps %s go round without end: %q leads back when its work is declined", around, id), "let else: lead out of the loop")
			return
		}
	}
	b.report(CodeEndless, d.tree.Step(loop[0]).Place, fmt.Sprintf("the steps %s go round without end", around), "let the loop pass a step with do: and at most:, or lead out of it")
}

// loop is a shortest way from a step back to itself that passes no bounded
// piece of work, or nil. Declining work doesn't use it up.
func (d *draft) loop(start string) []string {
	before := map[string]string{}
	work := []string{start}
	for len(work) > 0 {
		step := d.tree.Step(work[0])
		work = work[1:]
		if step == nil {
			continue
		}
		for _, way := range d.ways(step) {
			if step.Kind == Do && step.AtMost > 0 && way.outcome != declined {
				continue
			}
			if way.to == start {
				return back(before, start, step.ID)
			}
			if _, seen := before[way.to]; !seen {
				before[way.to] = step.ID
				work = append(work, way.to)
			}
		}
	}
	return nil
}

func back(before map[string]string, start, last string) []string {
	path := []string{last}
	for last != start {
		last = before[last]
		path = append(path, last)
	}
	slices.Reverse(path)
	return path
}

// checkJudges: a tree judges what it can find and clear, and nothing else.
func (b *builder) checkJudges(d *draft) {
	f := b.flows[d.tree.ID]
	stops := slices.ContainsFunc(d.tree.Steps, func(s *Step) bool { return s.Kind == Stop })
	if len(d.shape.Judges) == 0 && !stops {
		b.report(CodeMissing, d.shape.Tree.Place, fmt.Sprintf("the tree %q judges nothing and stops nowhere", d.tree.ID), "add judges: [FAULT], and a step that finds it")
	}
	for _, s := range d.tree.Steps {
		if (s.Kind == Find || s.Kind == Clear) && !slices.Contains(d.tree.Judges, s.Fault) {
			w := d.shapes[s.ID].Find
			if s.Kind == Clear {
				w = d.shapes[s.ID].Clear
			}
			b.report(CodeNotJudged, w.Place, fmt.Sprintf("the tree %q doesn't judge %s", d.tree.ID, s.Fault), "add it to judges:")
		}
	}
	for _, w := range d.shape.Judges {
		switch {
		case !slices.Contains(d.tree.Judges, w.Text):
		case !f.finds[w.Text]:
			b.report(CodeNeverFound, w.Place, fmt.Sprintf("the tree %q judges %s, and no step finds it", d.tree.ID, w.Text), "add a step: {find: "+w.Text+", by: {TEST: [BAND]}, then: STEP}")
		case !f.clears[w.Text]:
			b.report(CodeNeverClear, w.Place, fmt.Sprintf("the tree %q judges %s, and nothing in it can clear it", d.tree.ID, w.Text),
				"add it to clears: of a band of a test that the tree asks, or add a clear: step")
		}
	}
}
