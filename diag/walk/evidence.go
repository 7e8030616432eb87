package walk

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// dangerAt is the probability from which a dangerous band is shown. A danger
// must not hide behind a limit that the meter can't resolve.
const dangerAt = 1 - measure.SureAt

// evidence works out which faults the results show and which they rule out, in
// whatever order the readings came.
type evidence struct {
	lib     *tree.Library
	system  *tree.System
	results map[string]Result
	cleared map[string]Clearing
	found   map[string]Finding
}

func weigh(lib *tree.Library, sys *tree.System, results map[string]Result) *evidence {
	e := &evidence{
		lib: lib, system: sys, results: results,
		cleared: map[string]Clearing{}, found: map[string]Finding{},
	}
	e.clearByBand()
	steps := e.steps()
	for _, s := range steps {
		if s.step.Kind == tree.Clear {
			if by, ok := e.holds(s.step.By); ok {
				e.clear(s.step.Fault, by)
			}
		}
	}
	// A finding may wait for other faults to be judged first, so go round until
	// nothing is added. Each round adds at least one fault, so it ends.
	for e.findMore(steps) {
	}
	return e
}

// placed is a step with the tree it stands in.
type placed struct {
	tree *tree.Tree
	step *tree.Step
}

// steps lists the find and clear steps of every tree for this system, in a
// fixed order.
func (e *evidence) steps() []placed {
	var out []placed
	for _, t := range e.lib.TreesFor(e.system.ID) {
		for _, s := range t.Steps {
			if s.Kind == tree.Find || s.Kind == tree.Clear {
				out = append(out, placed{t, s})
			}
		}
	}
	return out
}

func (e *evidence) findMore(steps []placed) bool {
	more := false
	for _, s := range steps {
		if s.step.Kind != tree.Find || !e.judged(s.step.After) {
			continue
		}
		if _, had := e.found[s.step.Fault]; had {
			continue
		}
		if by, ok := e.holds(s.step.By); ok {
			fault := e.system.Fault(s.step.Fault)
			if fault == nil {
				continue
			}
			e.found[fault.ID] = Finding{Fault: fault, Tree: s.tree.ID, Step: s.step.ID, Evidence: by}
			more = true
		}
	}
	return more
}

// judged says whether every fault in the list is found or cleared.
func (e *evidence) judged(faults []string) bool {
	for _, id := range faults {
		_, found := e.found[id]
		_, cleared := e.cleared[id]
		if !found && !cleared {
			return false
		}
	}
	return true
}

// holds says whether every piece of evidence is called for the bands that
// count.
func (e *evidence) holds(by []tree.Evidence) ([]Evidence, bool) {
	var out []Evidence
	for _, want := range by {
		r := e.results[want.Test]
		chance, says, ok := r.Within(want.Bands)
		if !ok || chance < measure.SureAt {
			return nil, false
		}
		out = append(out, Evidence{Test: r.Test, Says: says, Chance: chance})
	}
	return out, len(out) > 0
}

// clearByBand applies what bands and choices rule out. Bands that clear the
// same fault are taken together.
func (e *evidence) clearByBand() {
	for _, test := range e.system.Tests {
		clears := map[string][]string{} // fault to bands
		var order []string
		note := func(band string, faults []string) {
			for _, f := range faults {
				if clears[f] == nil {
					order = append(order, f)
				}
				clears[f] = append(clears[f], band)
			}
		}
		for _, b := range test.Bands {
			note(b.Name, b.Clears)
		}
		for _, c := range test.Choices {
			note(c.Name, c.Clears)
		}
		for _, fault := range order {
			if by, ok := e.holds([]tree.Evidence{{Test: test.ID, Bands: clears[fault]}}); ok {
				e.clear(fault, by)
			}
		}
	}
}

func (e *evidence) clear(id string, by []Evidence) {
	fault := e.system.Fault(id)
	if fault == nil {
		return
	}
	c := e.cleared[id]
	c.Fault = fault
	for _, piece := range by {
		if !slices.ContainsFunc(c.Evidence, func(had Evidence) bool { return had.Test == piece.Test }) {
			c.Evidence = append(c.Evidence, piece)
		}
	}
	e.cleared[id] = c
}

// dangers lists the hazards that the results show, in the order of the tests.
func (e *evidence) dangers() []Danger {
	var out []Danger
	add := func(caution string, test *tree.Test) {
		if c := e.lib.Cautions[caution]; c != nil {
			out = append(out, Danger{Caution: c, Test: test.ID})
		}
	}
	for _, test := range e.system.Tests {
		r := e.results[test.ID]
		for i, band := range test.Bands {
			if band.Danger != "" && i < len(r.Chance) && r.Chance[i] > dangerAt {
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
