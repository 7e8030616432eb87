package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// router goes through trees from their beginning until something is open.
type router struct {
	lib    *tree.Library
	system *tree.System
	facts  job.Facts
	ev     *evidence
	sheet  *sheet

	trail []Visit
	// What the walk waits for; test or work is set when it waits.
	tree *tree.Tree
	step *tree.Step
	test *tree.Test
	work *tree.Work
	stop *tree.Step
	loop bool
}

// usualTrail is room for the way through a job's trees.
const usualTrail = 32

// waits says whether the walk has come to something open, or was stopped.
func (r *router) waits() bool { return r.test != nil || r.work != nil || r.stop != nil }

// run goes through one tree to its end, or to where it waits.
func (r *router) run(t *tree.Tree) {
	var room [64]*tree.Step
	been, passed := room[:0], []*tree.Step(nil)
	for id := t.Begin; id != tree.End && !r.waits(); {
		step := t.Step(id)
		if step == nil {
			return
		}
		if !slices.Contains(been, step) {
			been = append(been, step)
			r.tree, r.step = t, step
			id = r.pass(t, step)
			continue
		}
		// The loader lets no cycle through without a bounded piece of work, so
		// coming back here means that the facts lead round in a circle for good.
		// A piece of work met again counts as done often enough, once.
		if step.Kind != tree.Do || slices.Contains(passed, step) {
			r.loop = true
			return
		}
		passed, id = append(passed, step), step.Else
	}
}

// pass takes one step and returns the next one's id.
func (r *router) pass(t *tree.Tree, s *tree.Step) string {
	visit := Visit{Tree: t.ID, Step: s.ID, Kind: s.Kind, Test: s.Test}
	next := s.Next
	switch s.Kind {
	case tree.Ask:
		visit.Outcome, next = r.ask(s)
	case tree.Do:
		visit.Outcome, next = r.do(s)
	case tree.Sub:
		visit.Outcome, next = r.sub(s)
		if visit.Outcome == "" {
			return "" // it waits inside; the trail has the inner steps
		}
		r.tree, r.step = t, s
	case tree.Find, tree.Clear:
		visit.Outcome = r.stands(s)
	case tree.Stop:
		r.stop = s
	}
	if r.waits() && r.stop == nil {
		return ""
	}
	if r.trail == nil {
		r.trail = make([]Visit, 0, usualTrail)
	}
	r.trail = append(r.trail, visit)
	return next
}

// ask routes by the test's answer, or waits for it.
func (r *router) ask(s *tree.Step) (outcome, next string) {
	at := r.system.TestAt(s.Test)
	res := r.sheet.at(at)
	switch {
	case at < 0:
		return tree.Unsure, s.Then[tree.Unsure]
	case res == nil && r.system.HasNot(s.Test, r.facts.Intake.LabelText, r.facts.Seen):
		return tree.Unsure, s.Then[tree.Unsure] // it is a question to another kind of machine
	case res == nil:
		r.test = r.sheet.waitsFor(at)
		return "", ""
	case res.Mark == Seen:
		return res.Choice, s.Then[res.Choice]
	case res.Mark == Passed || res.Mute():
		return tree.Unsure, s.Then[tree.Unsure]
	}
	return called(s, res)
}

// called routes a reading: bands that lead to the same step are taken
// together, and what is too close to call is unsure.
func called(s *tree.Step, res *Result) (outcome, next string) {
	call := res.CallBy(routeGroups(s, res.Test))
	if call.Answer != measure.Called {
		return tree.Unsure, s.Then[tree.Unsure]
	}
	band := res.Test.Bands[call.Band].Name
	return band, s.Then[band]
}

// routeGroups gives bands the same number when they lead to the same step.
func routeGroups(s *tree.Step, test *tree.Test) []int {
	groups := make([]int, len(test.Bands))
	for i, band := range test.Bands {
		groups[i] = i
		for k := range i {
			if s.Then[test.Bands[k].Name] == s.Then[band.Name] {
				groups[i] = groups[k]
				break
			}
		}
	}
	return groups
}

// The outcomes of a piece of work.
const (
	outDone     = "done"
	outDeclined = "passed over"
	outEnough   = "done often enough"
)

// do waits for a piece of work, or goes on when it was done or passed over. It
// is wanted again when a test that it stales was answered after it was last
// done and the route still leads here.
func (r *router) do(s *tree.Step) (outcome, next string) {
	count, last := r.facts.Works(s.Work)
	switch {
	case count > 0 && !r.answeredSince(r.system.StaledBy(s), last):
		return outDone, s.Next
	case s.AtMost > 0 && count >= s.AtMost:
		return outEnough, s.Else
	case r.facts.Declined(s.Work) > last:
		return outDeclined, s.Else
	}
	r.work = r.system.FindWork(s.Work)
	return "", ""
}

// answeredSince says whether the route so far used an answer to one of these
// tests given after seq.
func (r *router) answeredSince(stales []string, seq int64) bool {
	for _, visit := range r.trail {
		if visit.Test == "" {
			continue
		}
		if res := r.sheet.of(visit.Test); res == nil || res.Seq <= seq {
			continue
		}
		for _, id := range stales {
			if id == visit.Test {
				return true
			}
		}
	}
	return false
}

// sub walks another tree and comes back with what it amounts to.
func (r *router) sub(s *tree.Step) (outcome, next string) {
	inner := r.lib.Trees[s.Tree]
	if inner == nil {
		return tree.Unsure, s.Then[tree.Unsure]
	}
	r.run(inner)
	if r.waits() {
		return "", ""
	}
	outcome = r.amounts(inner)
	return outcome, s.Then[outcome]
}

// amounts says what a tree's faults come to: one shown, all cleared, or unsure.
func (r *router) amounts(t *tree.Tree) string {
	all := true
	for _, id := range t.Judges {
		found, cleared := r.ev.of(id)
		if found && !cleared {
			return tree.Shown
		}
		all = all && cleared && !found
	}
	if all && len(t.Judges) > 0 {
		return tree.Cleared
	}
	return tree.Unsure
}

// stands says whether the finding or clearing of a step holds.
func (r *router) stands(s *tree.Step) string {
	found, cleared := r.ev.of(s.Fault)
	switch {
	case found && s.Kind == tree.Find:
		return tree.Shown
	case cleared && s.Kind == tree.Clear:
		return tree.Cleared
	}
	return tree.Unsure
}
