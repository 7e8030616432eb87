package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// Unproved are the faults that were found, that a finished repair should have
// cleared, and that no reading taken since clears: the repair is not proved by a
// reading that says nothing. A part that a conversion took off needs no proof.
func Unproved(lib *tree.Library, p Position, facts job.Facts) []*tree.Fault {
	if p.System == nil {
		return nil
	}
	var out []*tree.Fault
	for _, f := range p.System.Faults {
		if slices.Contains(facts.EverFound, f.ID) && mendedBy(lib, facts, f.ID) && !p.Verdict.Clears(f.ID) {
			out = append(out, f)
		}
	}
	return out
}

func mendedBy(lib *tree.Library, facts job.Facts, fault string) bool {
	return slices.ContainsFunc(facts.Repaired, func(id string) bool {
		r := lib.Repairs[id]
		return r != nil && slices.Contains(r.Clears, fault)
	})
}

// Clears says whether a fault is among the cleared ones.
func (v Verdict) Clears(fault string) bool {
	return slices.ContainsFunc(v.Cleared, func(c Clearing) bool { return c.Fault.ID == fault })
}

// Proving is the test that is lacking to prove that a fault is gone: what would decide it,
// or else what would have and was passed over. nil when no test would. It needs the Results.
func Proving(lib *tree.Library, p Position, fault string) *tree.Test {
	if test := Deciding(lib, p, fault); test != nil {
		return test
	}
	for _, id := range withInputs(p.System, speaksOf(lib, p.System, []string{fault})) {
		if r := p.Results[id]; r.Mark == Passed {
			return r.Test
		}
	}
	return nil
}

// deciding asks for what would tell whether a repair holds, where its check
// readings leave that open. What was passed over is not asked for again: after it comes
// what else would tell. Whoever passes over that too is not pressed.
func (w *where) deciding(p *Position) bool {
	if !w.repaired() || len(p.Verdict.Found) > 0 {
		return false
	}
	open := Unproved(w.lib, *p, w.facts)
	if len(open) == 0 {
		return false
	}
	at := *p
	at.Results = w.sheet.all()
	for _, f := range open {
		if w.refusals(f.ID) >= mostRefusals {
			continue
		}
		if test := w.told(p, f.ID); test != nil {
			p.Stage, p.Test = AtCheck, test
			return true
		}
		if test := Deciding(w.lib, at, f.ID); test != nil {
			p.Stage, p.Test = AtCheck, test
			return true
		}
	}
	return false
}

// mostRefusals is after how many tests passed over nothing more is asked for a fault.
const mostRefusals = 2

// told is the test that a check reading of the fault's repair names as the one
// that would tell, or the first that it is worked out from; nil without one.
func (w *where) told(p *Position, fault string) *tree.Test {
	speaks := speaksOf(w.lib, w.system, []string{fault})
	for _, id := range w.facts.Repaired {
		r := w.lib.Repairs[id]
		if r == nil || !slices.Contains(r.Clears, fault) {
			continue
		}
		for _, u := range p.Verdict.Unclear {
			if u.Take == nil || !slices.Contains(r.Checks, u.Test.ID) || !slices.Contains(speaks, u.Take.ID) {
				continue
			}
			if at := w.system.TestAt(u.Take.ID); w.sheet.at(at) == nil {
				return w.sheet.waitsFor(at)
			}
		}
	}
	return nil
}

// refusals are how many of the answers that would speak of the fault were refused
// after the last repair.
func (w *where) refusals(fault string) int {
	speak := withInputs(w.system, speaksOf(w.lib, w.system, []string{fault}))
	slices.Sort(speak)
	out := 0
	for _, id := range slices.Compact(speak) {
		if r := w.sheet.of(id); r != nil && r.Mark == Passed && r.Seq > w.facts.MendedLast {
			out++
		}
	}
	return out
}
