package tree

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// What is known of a test on the way to a step. Values from firstOutcome on are
// an outcome each.
const (
	notKnown byte = iota
	known         // asked somewhere; it may have come out any way
	firstOutcome
)

// The bounds of a search: tests that are followed, and spots that are visited.
// Trees of ours need a handful and a few hundred.
const (
	mostTests = 16
	mostSpots = 50_000
)

// state is what is known of each test that matters.
type state [mostTests]byte

// spot is a step with what is known there.
type spot struct {
	known  state
	step   int32 // index of tree.Steps
	before int32 // the spot that led here, as an index of reach; -1: none
}

// trace is a search through all ways to one find or clear step, keeping what is
// known of the tests that matter there.
type trace struct {
	b     *builder
	d     *draft
	tests []string          // that matter
	index map[string]int    // of them
	codes []map[string]byte // by test: outcome to its value; nil when only "known" matters
	moves [][]move          // by step: the ways that lead to the step searched for
	*found
}

// found is what a search came by. One is used for all searches, because they
// come by a lot.
type found struct {
	room  []move // for the moves
	reach []spot
	seen  []map[state]struct{} // by step
}

func (f *found) clear(steps int) {
	const usual = 4096 // enough for most searches
	if f.reach == nil {
		f.reach = make([]spot, 0, usual)
	}
	f.room, f.reach = f.room[:0], f.reach[:0]
	f.seen = append(f.seen, make([]map[state]struct{}, max(steps-len(f.seen), 0))...)
	for _, seen := range f.seen {
		clear(seen)
	}
}

// move is a way on from a step, and what it does to what is known. Tests are
// indexes of a state.
type move struct {
	to      int32
	asks    []int
	forgets []int
	answers bool // the test comes out as code
	test    int
	code    byte
	sub     *flow // a tree that is walked before
}

func newTrace(b *builder, d *draft, s *Step) *trace {
	t := &trace{b: b, d: d, index: map[string]int{}, found: &b.found}
	t.clear(len(d.tree.Steps))
	for _, e := range s.By {
		if t.matters(e.Test) {
			t.codes[t.index[e.Test]] = d.outcomes(e)
		}
	}
	for _, e := range s.By {
		for _, input := range slices.Sorted(maps.Keys(d.withInputs(e.Test))) {
			t.matters(input)
		}
	}
	t.moves = t.movesTo(s.ID)
	return t
}

func (t *trace) matters(test string) bool {
	if _, ok := t.index[test]; ok || len(t.codes) == mostTests {
		return ok
	}
	t.index[test], t.tests = len(t.codes), append(t.tests, test)
	t.codes = append(t.codes, nil)
	return true
}

// outcomes gives each outcome of a test, in any system of the tree, a value. Those
// that lead the same way wherever the test is asked, and count as much, have the
// same one. A test that one step asks has two, what counts and what doesn't: only a
// second step could be left by another way than the first, and has to tell them
// apart.
func (d *draft) outcomes(e Evidence) map[string]byte {
	var asked []*Step
	for _, s := range d.tree.Steps {
		if s.Kind == Ask && s.Test == e.Test {
			asked = append(asked, s)
		}
	}
	codes, alike := map[string]byte{}, map[string]byte{}
	for _, o := range append(d.outcomesOf(e.Test), Unsure) {
		leads := strconv.FormatBool(slices.Contains(e.Bands, o))
		if len(asked) > 1 {
			leads += d.routes(asked, o)
		}
		if _, ok := alike[leads]; !ok {
			alike[leads] = firstOutcome + byte(min(len(alike), 200))
		}
		codes[o] = alike[leads]
	}
	return codes
}

// routes is where an outcome leads from each of some steps.
func (d *draft) routes(steps []*Step, outcome string) string {
	var to strings.Builder
	for _, s := range steps {
		for _, way := range d.ways(s) {
			if way.outcome == outcome {
				to.WriteString("\n" + way.to)
			}
		}
		to.WriteByte(';')
	}
	return to.String()
}

// outcomesOf is what a test may come out as, in any system of the tree.
func (d *draft) outcomesOf(test string) []string {
	var out []string
	for _, n := range d.notes {
		tested := n.system.Test(test)
		if tested == nil {
			continue
		}
		for _, o := range tested.Outcomes() {
			if !slices.Contains(out, o) {
				out = append(out, o)
			}
		}
	}
	return out
}

// leadingTo is the steps from which there is a way to a step.
func (d *draft) leadingTo(id string) set {
	if d.into == nil {
		d.into = map[string][]string{}
		for _, s := range d.tree.Steps {
			for _, way := range d.ways(s) {
				d.into[way.to] = append(d.into[way.to], s.ID)
			}
		}
	}
	out, work := set{id: true}, []string{id}
	for len(work) > 0 {
		last := work[len(work)-1]
		work = work[:len(work)-1]
		for _, from := range d.into[last] {
			if !out[from] {
				out[from] = true
				work = append(work, from)
			}
		}
	}
	return out
}

// number is the index of a step of the tree; -1 for none, such as the end.
func (d *draft) number(id string) int32 {
	if d.numbers == nil {
		d.numbers = map[string]int32{}
		for i, s := range d.tree.Steps {
			d.numbers[s.ID] = int32(i)
		}
	}
	if i, ok := d.numbers[id]; ok {
		return i
	}
	return -1
}

// movesTo is the ways from each step that lead to one step.
func (t *trace) movesTo(id string) [][]move {
	leading, moves := t.d.leadingTo(id), make([][]move, len(t.d.tree.Steps))
	for i, s := range t.d.tree.Steps {
		if !leading[s.ID] {
			continue
		}
		from := len(t.room)
		for _, way := range t.d.ways(s) {
			if leading[way.to] {
				t.room = append(t.room, t.move(s, way))
			}
		}
		moves[i] = t.room[from:]
	}
	return moves
}

func (t *trace) move(s *Step, way edge) move {
	m := move{to: t.d.number(way.to)}
	switch {
	case s.Kind == Ask:
		m.asks = t.indexes(t.d.withInputs(s.Test))
		if i, ok := t.index[s.Test]; ok && t.codes[i] != nil {
			m.answers, m.test, m.code = true, i, t.codes[i][way.outcome]
		}
	case s.Kind == Do && way.outcome != declined:
		m.forgets = t.indexes(t.d.staled(s))
	case s.Kind == Sub:
		m.sub = t.b.flows[s.Tree]
	}
	return m
}

func (t *trace) indexes(tests set) []int {
	var out []int
	for id := range tests {
		if i, ok := t.index[id]; ok {
			out = append(out, i)
		}
	}
	return out
}

// search visits every step that leads there with everything that may be known.
func (t *trace) search() {
	if begin := t.d.number(t.d.tree.Begin); begin >= 0 {
		t.visit(begin, state{}, -1)
	}
	for i := 0; i < len(t.reach) && len(t.reach) < mostSpots; i++ {
		at := t.reach[i]
		moves := t.moves[at.step]
		for k := range moves {
			m := &moves[k]
			if m.sub != nil {
				for _, known := range t.sub(m.sub, at.known) {
					t.visit(m.to, known, int32(i))
				}
			} else if known, ok := m.leave(at.known); ok {
				t.visit(m.to, known, int32(i))
			}
		}
	}
}

func (t *trace) visit(step int32, known state, before int32) {
	seen := t.seen[step]
	if seen == nil {
		seen = map[state]struct{}{}
		t.seen[step] = seen
	}
	if _, ok := seen[known]; !ok {
		seen[known] = struct{}{}
		t.reach = append(t.reach, spot{known, step, before})
	}
}

// leave is what is known after a step was left this way. It is not ok when it
// can't be left so, because the test was answered otherwise before.
func (m *move) leave(now state) (state, bool) {
	for _, i := range m.forgets {
		now[i] = notKnown
	}
	for _, i := range m.asks {
		if now[i] == notKnown {
			now[i] = known
		}
	}
	if m.answers {
		if now[m.test] != known && now[m.test] != m.code {
			return now, false
		}
		now[m.test] = m.code
	}
	return now, true
}

// sub is what may be known after another tree was walked: what it always asks
// is known, what it may ask may be.
func (t *trace) sub(f *flow, now state) []state {
	out := []state{now}
	for i, id := range t.tests {
		switch {
		case f.always[id] && (f.stales[id] || now[i] == notKnown):
			out = branch(out, i, known)
		case f.stales[id], f.asks[id] && now[i] == notKnown:
			out = branch(out, i, notKnown, known)
		}
	}
	return out
}

// branch sets one test of each state to each of the values.
func branch(states []state, i int, values ...byte) []state {
	var out []state
	for _, s := range states {
		for _, v := range values {
			s[i] = v
			out = append(out, s)
		}
	}
	return out
}

// isKnown says whether a test has an answer: its own, or those of all that it
// is worked out from.
func (t *trace) isKnown(id string, now state) bool {
	i, ok := t.index[id]
	if !ok || now[i] != notKnown {
		return true
	}
	test := t.d.test(id)
	if test == nil || test.Kind != Worked || len(test.Inputs()) == 0 {
		return false
	}
	return !slices.ContainsFunc(test.Inputs(), func(input string) bool { return !t.isKnown(input, now) })
}

// holds says whether the state lets the evidence hold.
func (t *trace) holds(e Evidence, now state) bool {
	i, ok := t.index[e.Test]
	if !ok || now[i] <= known {
		return t.isKnown(e.Test, now)
	}
	return slices.ContainsFunc(e.Bands, func(band string) bool { return t.codes[i][band] == now[i] })
}

// path is the steps that lead to a spot.
func (t *trace) path(at int) []string {
	var steps []string
	for i := int32(at); i >= 0; i = t.reach[i].before {
		steps = append(steps, t.d.tree.Steps[t.reach[i].step].ID)
	}
	slices.Reverse(steps)
	return steps
}
