package walk

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// evidence works out which faults the results show and which they rule out, in
// whatever order the readings came. Faults are named by their place in
// System.Faults.
type evidence struct {
	lib      *tree.Library
	system   *tree.System
	index    *tree.Index
	sheet    *sheet
	verdicts []standing // by fault
	found    []Finding
	cleared  []Clearing
}

// standing says where a fault stands in found and in cleared: its place there
// plus one, 0 when it is not there.
type standing struct{ found, cleared int16 }

func weigh(lib *tree.Library, sys *tree.System, results *sheet) *evidence {
	e := &evidence{
		lib: lib, system: sys, index: results.index, sheet: results,
		verdicts: make([]standing, len(sys.Faults)),
	}
	e.clearByBand()
	steps := lib.Judging(sys, e.index)
	for i := range steps {
		if steps[i].Step.Kind == tree.Clear {
			if by, ok := e.holds(&steps[i]); ok {
				e.clear(steps[i].Fault, by)
			}
		}
	}
	// A finding may wait for other faults to be judged first, so go round until
	// nothing is added. Each round adds at least one fault, so it ends.
	for e.findMore(steps) {
	}
	return e
}

func (e *evidence) findMore(steps []tree.IndexedStep) bool {
	more := false
	for i := range steps {
		s := &steps[i]
		if s.Step.Kind != tree.Find || e.verdicts[s.Fault].found > 0 {
			continue
		}
		// Most tests are unknown, so that is what to look at first.
		if e.sheet.at(s.By[0]) == nil || !e.judged(s.After) {
			continue
		}
		if by, ok := e.holds(s); ok {
			e.found = append(e.found, Finding{
				Fault: e.system.Faults[s.Fault], Tree: s.Tree.ID, Step: s.Step.ID, Evidence: by,
			})
			e.verdicts[s.Fault].found = int16(len(e.found))
			more = true
		}
	}
	return more
}

// judged says whether every fault in the list is found or cleared.
func (e *evidence) judged(faults []int) bool {
	for _, at := range faults {
		if at < 0 || e.verdicts[at] == (standing{}) {
			return false
		}
	}
	return true
}

// of says whether the fault of that id is found, and whether it is cleared.
func (e *evidence) of(fault string) (found, cleared bool) {
	at := e.index.FaultAt(fault)
	if at < 0 {
		return false, false
	}
	return e.verdicts[at].found > 0, e.verdicts[at].cleared > 0
}

// holds says whether every piece of evidence of the step is called for the bands
// that count.
func (e *evidence) holds(s *tree.IndexedStep) ([]Evidence, bool) {
	var room [4]Evidence // most steps need fewer, and most of them don't hold
	out := room[:0]
	for i, at := range s.By {
		piece, ok := speaks(e.sheet.at(at), s.Step.By[i].Bands)
		if !ok {
			return nil, false
		}
		out = append(out, piece)
	}
	return slices.Clone(out), true
}

// speaks is the evidence that a result is for some bands or choices, when it is
// called for them.
func speaks(r *Result, outcomes []string) (Evidence, bool) {
	if r == nil {
		return Evidence{}, false
	}
	chance, says, ok := r.within(outcomes)
	if !ok || chance < measure.SureAt {
		return Evidence{}, false
	}
	return Evidence{Test: r.Test, Says: says, Chance: chance}, true
}

// clearByBand applies what bands and choices rule out. Bands that clear the
// same fault are taken together.
func (e *evidence) clearByBand() {
	for at := range e.index.Tests {
		r := e.sheet.at(at)
		if r == nil {
			continue
		}
		for _, c := range e.index.Tests[at].Clears {
			if piece, ok := speaks(r, c.Outcomes); ok {
				e.clear(c.Fault, []Evidence{piece})
			}
		}
	}
}

// clear takes over the evidence, or adds it to what cleared the fault before.
func (e *evidence) clear(at int, by []Evidence) {
	if e.verdicts[at].cleared == 0 {
		e.cleared = append(e.cleared, Clearing{Fault: e.system.Faults[at]})
		e.verdicts[at].cleared = int16(len(e.cleared))
	}
	c := &e.cleared[e.verdicts[at].cleared-1]
	for _, piece := range by {
		if !slices.ContainsFunc(c.Evidence, func(had Evidence) bool { return had.Test == piece.Test }) {
			c.Evidence = append(c.Evidence, piece)
		}
	}
}

// dangers lists the hazards that the results show, in the order of the tests.
func (e *evidence) dangers() []Danger {
	var out []Danger
	add := func(caution string, test *tree.Test) {
		if c := e.lib.Cautions[caution]; c != nil {
			out = append(out, Danger{Caution: c, Test: test.ID})
		}
	}
	for at, test := range e.system.Tests {
		r := e.sheet.at(at)
		if r == nil || !e.index.Tests[at].Raises {
			continue
		}
		for i, band := range test.Bands {
			if band.Danger != "" && r.Raises(i) {
				add(band.Danger, test)
			}
		}
		for _, choice := range test.Choices {
			if choice.Danger != "" && r.Mark == Seen && r.Choice == choice.Name {
				add(choice.Danger, test)
			}
		}
	}
	return out
}
