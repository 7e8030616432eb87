package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// Where says where a job stands. It is a pure function: the same trees and
// facts always give the same position.
func Where(lib *tree.Library, facts job.Facts) Position {
	p, sheet := ahead(lib, facts)
	if sheet != nil {
		p.Results = sheet.all()
		if facts.MendedLast > 0 {
			p.TestedBefore = LapsedOf(lib, facts, p).Cleared
		}
	}
	return p
}

// Ahead is Where without the Results, which cost more than all the rest: for
// whoever goes through many jobs and wants the next test or the verdict. Instead
// needs the Results.
func Ahead(lib *tree.Library, facts job.Facts) Position {
	p, _ := ahead(lib, facts)
	return p
}

// ahead also gives the results, for whoever wants them; nil when there is no
// machine yet.
func ahead(lib *tree.Library, facts job.Facts) (Position, *sheet) {
	if facts.Intake == nil {
		return Position{Stage: AtIntake}, nil
	}
	sys := lib.Systems[facts.Intake.System]
	if sys == nil {
		return Position{Stage: AtIntake}, nil
	}
	values, defaulted := Values(sys, *facts.Intake)
	w := &where{lib: lib, system: sys, facts: facts, sheet: judgeAll(sys, sys.Index(), facts, values)}
	w.ev = weigh(lib, sys, w.sheet)
	p := w.position()
	p.Verdict.Defaults = defaulted
	return p, w.sheet
}

type where struct {
	lib    *tree.Library
	system *tree.System
	facts  job.Facts
	sheet  *sheet
	ev     *evidence
}

func (w *where) position() Position {
	route := w.walk()
	removed := w.removed()
	p := Position{
		System: w.system, Trail: route.trail,
		Stop: route.stop, Loop: route.loop, Ticked: w.facts.Ticked,
		Verdict: w.ev.partition(removed),
	}
	p.Verdict.Finished = !route.waits() || route.stop != nil
	w.next(&p, route, removed)
	w.guard(&p)
	return p
}

// walk goes through the trees of the complaint in order.
func (w *where) walk() *router {
	r := &router{lib: w.lib, system: w.system, facts: w.facts, ev: w.ev, sheet: w.sheet}
	for _, id := range w.complaintTrees() {
		if t := w.lib.Trees[id]; t != nil && !r.waits() {
			r.run(t)
		}
	}
	return r
}

func (w *where) complaintTrees() []string { return w.complaint().Trees }

// complaint falls back to the first one when trees were edited and the job's own
// is gone: the readings stay useful.
func (w *where) complaint() tree.Complaint {
	for _, c := range w.system.Complaints {
		if c.ID == w.facts.Intake.Complaint {
			return c
		}
	}
	if len(w.system.Complaints) > 0 {
		return w.system.Complaints[0]
	}
	return tree.Complaint{}
}

// removed are the faults whose parts a finished conversion took off.
func (w *where) removed() map[string]bool {
	out := map[string]bool{}
	for _, id := range w.facts.Repaired {
		if r := w.lib.Repairs[id]; r != nil && r.Kind == tree.Conversion {
			for _, fault := range r.Clears {
				out[fault] = true
			}
		}
	}
	return out
}

// next sets the stage and what it asks for.
func (w *where) next(p *Position, route *router, removed map[string]bool) {
	switch {
	case w.facts.Closed != nil:
		p.Stage = AtClosed
	case Declined(w.facts) != nil:
		p.Stage = AtVerdict
	case w.asking(p):
	case w.repairing(p):
	case route.stop == nil && w.settling(p, removed):
	case w.checking(p, removed):
	case w.repaired() && len(removed) == 0 && w.pending(p, w.wellTests(), AtCheck):
	case w.deciding(p):
	case w.leaving():
		p.Stage = AtClose
		if w.mended() {
			w.handingBack(p)
		}
	case route.stop == nil && len(removed) == 0 && w.again(p):
	case route.waits() && route.stop == nil && len(removed) == 0 && !w.well():
		p.Stage, p.Tree, p.Step = AtTest, route.tree.ID, route.step.ID
		p.Test, p.Work = route.test, route.work
		if p.Work != nil {
			p.Stage = AtWork
		}
	case w.facts.Chosen == nil, w.repaired() && len(p.Verdict.Found) > 0:
		p.Stage = AtVerdict
	case w.repaired() && w.serving(p):
	case w.mended() && w.handingBack(p):
	default:
		p.Stage = AtClose
	}
	w.servingFirst(p)
}

// repaired says whether the path chosen was a set of repairs.
func (w *where) repaired() bool {
	return w.facts.Chosen != nil && len(w.facts.Chosen.Repairs) > 0
}

// leaving says whether a way without a repair was chosen: nothing more is asked.
func (w *where) leaving() bool { return w.facts.Chosen != nil && len(w.facts.Chosen.Repairs) == 0 }

// mended says whether the machine leaves with something repaired on it, whatever
// was chosen since: then its safety functions are proved.
func (w *where) mended() bool {
	return w.repaired() || len(w.facts.Repaired) > 0 && !w.takenApart()
}

func (w *where) repairing(p *Position) bool {
	if !w.repaired() {
		return false
	}
	for _, id := range w.facts.Chosen.Repairs {
		if r := w.lib.Repairs[id]; r != nil && !slices.Contains(w.facts.Ticked, id) {
			p.Stage, p.Repair, p.Term, p.Lines = AtRepair, r, openTerm(r, w.facts.Agreed), w.lines(r)
			if p.Term != nil {
				p.Stage = AtTerms
			}
			return true
		}
	}
	return false
}

// checking asks for the check readings of the repairs that were done, but for
// repairs of parts that a conversion has taken off since.
func (w *where) checking(p *Position, removed map[string]bool) bool {
	if !w.repaired() {
		return false
	}
	stays := func(fault string) bool { return !removed[fault] }
	for _, id := range w.facts.Repaired {
		r := w.lib.Repairs[id]
		if r == nil || r.Kind != tree.Conversion && !slices.ContainsFunc(r.Clears, stays) {
			continue
		}
		if w.pending(p, r.Checks, AtCheck) {
			return true
		}
	}
	return false
}

// wellTests are the tests that show whether the complaint is gone.
func (w *where) wellTests() []string {
	var out []string
	for _, e := range w.system.Well {
		out = append(out, e.Test)
	}
	return out
}

// well says whether, after a repair, the complaint is gone: then nothing more
// is asked but the safety functions. Some complaints are not gone by what shows
// that a machine cranks.
func (w *where) well() bool {
	if w.complaint().ToTheEnd {
		return false
	}
	for _, want := range w.system.Well {
		if _, ok := speaks(w.sheet.of(want.Test), want.Bands); !ok {
			return false
		}
	}
	return len(w.system.Well) > 0 && w.repaired()
}

// handingBack asks for the safety functions, until one fails: a machine that
// does not stop is not started again to test the next. One that was passed over
// on the way here, or gave no answer that counts, is asked for again.
func (w *where) handingBack(p *Position) bool {
	for _, id := range w.handBack() {
		if r := w.sheet.of(id); r != nil && Dangerous(*r) {
			return false
		}
	}
	if w.pending(p, w.handBack(), AtHandBack) {
		return true
	}
	for _, id := range w.handBack() {
		if r := w.sheet.of(id); r != nil && !r.Counts() && r.Test.Kind != tree.Worked {
			p.Stage, p.Test = AtHandBack, r.Test
			return true
		}
	}
	return false
}

// handBack are the safety functions that this machine has.
func (w *where) handBack() []string { return SafetyOf(w.system, w.facts) }

// SafetyOf are the tests that prove the safety functions of this machine: by what its
// label says, some kinds have not all of the system's.
func SafetyOf(sys *tree.System, facts job.Facts) []string {
	if facts.Intake == nil {
		return sys.HandBack
	}
	return sys.HandBackOf(facts.Intake.LabelText, facts.Seen)
}

// hasNot says whether a test or service is for another kind of machine.
func (w *where) hasNot(id string) bool {
	return w.system.HasNot(id, w.facts.Intake.LabelText, w.facts.Seen)
}

// pending puts the first unanswered test of a list next.
func (w *where) pending(p *Position, tests []string, stage Stage) bool {
	for _, id := range tests {
		if at := w.system.TestAt(id); at >= 0 && w.sheet.at(at) == nil && !w.hasNot(id) {
			p.Stage, p.Test = stage, w.sheet.waitsFor(at)
			return true
		}
	}
	return false
}

// Instead is the position with another test asked for: one out of turn, or one
// again. Its make-safe conditions still come first.
func Instead(lib *tree.Library, facts job.Facts, p Position, test string) Position {
	r, ok := p.Results[test]
	if !ok {
		return p
	}
	w := &where{lib: lib, system: p.System, facts: facts, sheet: sheetOf(p.System, p.Results)}
	w.ev = weigh(lib, p.System, w.sheet)
	if r.Test.Kind == tree.Worked && len(r.Lacks) > 0 {
		r = p.Results[r.Lacks[0]]
	}
	p.Stage, p.Tree, p.Step = AtTest, "", ""
	p.Test, p.Work, p.Repair, p.Term, p.Danger, p.Safe, p.Again = r.Test, nil, nil, nil, nil, nil, nil
	p.Lines, p.Estimate, p.Services, p.Disputed = nil, nil, nil, false
	w.guard(&p)
	return p
}
