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
// fewer answers speak for, the first that was given only once. What was seen or
// read without power goes first; and while such an answer shows the fault, power
// is not put on to contradict it: it may be an engine full of liquid.
func (w *where) doubtful(fault string) *tree.Test {
	is := w.ev.verdicts[w.ev.index.FaultAt(fault)]
	shows, clears := w.asked(w.ev.found[is.found-1].Evidence), w.asked(w.ev.cleared[is.cleared-1].Evidence)
	one, other := shows, clears
	if len(clears) < len(shows) {
		one, other = clears, shows
	}
	ask := slices.Concat(one, other)
	cold := func(t *tree.Test) bool { return !w.system.State(t.State).Live() }
	if slices.ContainsFunc(shows, cold) {
		ask = slices.DeleteFunc(ask, func(t *tree.Test) bool { return !cold(t) })
	}
	once := slices.IndexFunc(ask, func(t *tree.Test) bool { return w.facts.Times(t.ID) == 1 })
	if once < 0 {
		return nil
	}
	return ask[once]
}

// asked are the tests of some evidence, and for worked-out ones those that they
// are worked out from.
func (w *where) asked(evidence []Evidence) []*tree.Test {
	var out []*tree.Test
	var add func(at int)
	add = func(at int) {
		if w.system.Tests[at].Kind != tree.Worked {
			out = append(out, w.system.Tests[at])
			return
		}
		for _, in := range w.ev.index.Tests[at].Inputs {
			add(in)
		}
	}
	for _, piece := range evidence {
		add(w.system.TestAt(piece.Test.ID))
	}
	return out
}
