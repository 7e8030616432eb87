package walk

import (
	"slices"

	"benchlead/diag/tree"
)

// Contradiction is a fault that some answers show and others clear.
type Contradiction struct {
	Fault    *tree.Fault
	Evidence []Evidence // of both sides
}

// again asks once more for an answer that others contradict: one of them is
// wrong, and nothing that follows from it can be trusted. Nothing is asked more
// than twice for it; a doubt that stays is left in the verdict.
func (w *where) again(p *Position) bool {
	if w.facts.Chosen != nil {
		return false
	}
	for _, u := range p.Verdict.Untested {
		if len(u.Doubt) == 0 {
			continue
		}
		if test := w.doubtful(u.Fault.ID); test != nil {
			p.Stage, p.Test = AtTest, test
			p.Again = &Contradiction{Fault: u.Fault, Evidence: u.Doubt}
			p.Verdict.Finished = false
			return true
		}
	}
	return false
}

// doubtful is the answer that most likely is the wrong one: on the side that
// fewer answers speak for, the first that was given only once.
func (w *where) doubtful(fault string) *tree.Test {
	is := w.ev.verdicts[w.ev.index.FaultAt(fault)]
	one, other := w.ev.found[is.found-1].Evidence, w.ev.cleared[is.cleared-1].Evidence
	if len(other) < len(one) {
		one, other = other, one
	}
	for _, piece := range slices.Concat(one, other) {
		if test := w.askedOnce(piece.Test); test != nil {
			return test
		}
	}
	return nil
}

// askedOnce is the test, or the first of those that it is worked out from, that
// was answered only once since it was last made unknown.
func (w *where) askedOnce(test *tree.Test) *tree.Test {
	if test.Kind != tree.Worked {
		if w.facts.Times(test.ID) == 1 {
			return test
		}
		return nil
	}
	for _, at := range w.ev.index.Tests[w.system.TestAt(test.ID)].Inputs {
		if once := w.askedOnce(w.system.Tests[at]); once != nil {
			return once
		}
	}
	return nil
}
