package tree

import (
	"reflect"
	"slices"
)

// Index is what a walk looks up of a system again and again, worked out once by
// Load. Tests and faults are named by their place in System.Tests and
// System.Faults. It is read-only.
type Index struct {
	Tests []IndexedTest
	Masks [][]int // by fault: the faults that it masks

	tests  []*Test // what it was made from
	faults []*Fault
	place  map[string]int // of a fault
}

// IndexedTest is one test, with what its answer leads to.
type IndexedTest struct {
	// Inputs are the tests that a worked-out test names, by name. Leaves are the
	// ids of the answers it rests on, through other worked-out tests.
	Inputs []int
	Leaves []string
	Clears []Clears
	Raises bool // an outcome of it raises a danger
}

// Clears is the outcomes of one test that rule one fault out.
type Clears struct {
	Fault    int
	Outcomes []string
}

// IndexedStep is a find or clear step of a tree, whose fault and tests the
// system has. A step that speaks of others never holds, and is in no index.
type IndexedStep struct {
	Tree  *Tree
	Step  *Step
	Fault int
	By    []int // the tests of Step.By
	After []int // the faults of Step.After; -1: the system has no such fault
}

// steps is the find and clear steps for one system.
type steps struct {
	of    *Index
	trees map[string]*Tree // what they were taken from
	list  []IndexedStep
}

// Index is the system's index. One that was made from other tests or faults is
// not used: a copy of a system that was given others has its own made each time.
// Whatever else a copy was given, such as complaints, the index doesn't hold.
func (s *System) Index() *Index {
	if ix := s.index; ix != nil && same(ix.tests, s.Tests) && same(ix.faults, s.Faults) {
		return ix
	}
	return newIndex(s)
}

// Judging lists the find and clear steps of every tree for the system, whose
// index ix is: trees by id, steps in the order of the file.
func (l *Library) Judging(s *System, ix *Index) []IndexedStep {
	if kept, ok := l.judging[s.ID]; ok && kept.of == ix && sameMap(kept.trees, l.Trees) {
		return kept.list
	}
	return l.judgingSteps(s, ix)
}

// TestAt is where the test stands in the system's Tests; -1 when it has no test
// of that id.
func (s *System) TestAt(id string) int {
	t := s.tests[id]
	if t != nil && t.place < len(s.Tests) && s.Tests[t.place] == t {
		return t.place
	}
	return slices.IndexFunc(s.Tests, func(t *Test) bool { return t.ID == id })
}

func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

func sameMap[V any](a, b map[string]V) bool {
	return len(a) == len(b) && reflect.ValueOf(a).Pointer() == reflect.ValueOf(b).Pointer()
}

// index works out, for every system, what is looked up often.
func (l *Library) index() {
	l.judging = map[string]steps{}
	for id, s := range l.Systems {
		for i, t := range s.Tests {
			t.place = i
		}
		s.index = newIndex(s)
		l.judging[id] = steps{of: s.index, trees: l.Trees, list: l.judgingSteps(s, s.index)}
	}
}

func newIndex(s *System) *Index {
	ix := &Index{
		Tests: make([]IndexedTest, len(s.Tests)), Masks: make([][]int, len(s.Faults)),
		tests: s.Tests, faults: s.Faults, place: map[string]int{},
	}
	for i := len(s.Faults) - 1; i >= 0; i-- {
		ix.place[s.Faults[i].ID] = i // the first of an id counts
	}
	for i, f := range s.Faults {
		for _, id := range f.Masks {
			if at := ix.FaultAt(id); at >= 0 {
				ix.Masks[i] = append(ix.Masks[i], at)
			}
		}
	}
	for i, t := range s.Tests {
		ix.Tests[i] = IndexedTest{Clears: ix.clears(t), Raises: raises(t)}
		if t.Kind == Worked {
			ix.Tests[i].Inputs = inputs(s, t)
			ix.Tests[i].Leaves = leaves(s, t, map[*Test]bool{})
		}
	}
	return ix
}

// FaultAt is where the fault of that id stands; -1 when the system has none.
func (ix *Index) FaultAt(id string) int {
	if at, ok := ix.place[id]; ok {
		return at
	}
	return -1
}

// clears gathers the outcomes of a test by the fault that they rule out, in the
// order in which the faults are named.
func (ix *Index) clears(t *Test) []Clears {
	var out []Clears
	index := map[string]int{}
	note := func(outcome string, faults []string) {
		for _, id := range faults {
			if ix.FaultAt(id) < 0 {
				continue
			}
			at, ok := index[id]
			if !ok {
				at = len(out)
				index[id] = at
				out = append(out, Clears{Fault: ix.FaultAt(id)})
			}
			out[at].Outcomes = append(out[at].Outcomes, outcome)
		}
	}
	for _, b := range t.Bands {
		note(b.Name, b.Clears)
	}
	for _, c := range t.Choices {
		note(c.Name, c.Clears)
	}
	return out
}

func raises(t *Test) bool {
	return slices.ContainsFunc(t.Bands, func(b Band) bool { return b.Danger != "" }) ||
		slices.ContainsFunc(t.Choices, func(c Choice) bool { return c.Danger != "" })
}

func inputs(s *System, t *Test) []int {
	var out []int
	for _, name := range t.Inputs() {
		if at := s.TestAt(name); at >= 0 {
			out = append(out, at)
		}
	}
	return out
}

// leaves stops at a test that is worked out from itself; Load refuses it.
func leaves(s *System, t *Test, been map[*Test]bool) []string {
	if been[t] {
		return nil
	}
	been[t] = true
	defer delete(been, t)
	var out []string
	for _, at := range inputs(s, t) {
		if in := s.Tests[at]; in.Kind == Worked {
			out = append(out, leaves(s, in, been)...)
		} else {
			out = append(out, in.ID)
		}
	}
	return out[:len(out):len(out)]
}

func (l *Library) judgingSteps(s *System, ix *Index) []IndexedStep {
	var out []IndexedStep
	for _, t := range l.TreesFor(s.ID) {
		for _, step := range t.Steps {
			if step.Kind != Find && step.Kind != Clear {
				continue
			}
			if indexed, ok := ix.step(s, t, step); ok {
				out = append(out, indexed)
			}
		}
	}
	return out
}

// step is false when the system lacks the fault or a test, or when there is no
// evidence at all.
func (ix *Index) step(s *System, t *Tree, step *Step) (IndexedStep, bool) {
	out := IndexedStep{Tree: t, Step: step, Fault: ix.FaultAt(step.Fault)}
	for _, e := range step.By {
		at := s.TestAt(e.Test)
		if at < 0 {
			return out, false
		}
		out.By = append(out.By, at)
	}
	for _, id := range step.After {
		out.After = append(out.After, ix.FaultAt(id))
	}
	return out, out.Fault >= 0 && len(out.By) > 0
}
