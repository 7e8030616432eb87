package tree

import "slices"

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
	step   string
	known  state
	before int // the spot that led here, as an index of reach; -1: none
}

// trace is a search through all ways to one find or clear step, keeping what is
// known of the tests that matter there.
type trace struct {
	b       *builder
	d       *draft
	index   map[string]int    // of the tests that matter
	codes   []map[string]byte // by test: outcome to its value; nil when only "known" matters
	leading set               // steps that lead to the one searched for
	reach   []spot
	seen    map[string]map[state]bool // by step
}

func newTrace(b *builder, d *draft, s *Step) *trace {
	t := &trace{b: b, d: d, index: map[string]int{}, seen: map[string]map[state]bool{}, leading: d.leadingTo(s.ID)}
	for _, e := range s.By {
		if t.matters(e.Test) {
			t.codes[t.index[e.Test]] = d.outcomes(e)
		}
	}
	for _, e := range s.By {
		for input := range d.withInputs(e.Test) {
			t.matters(input)
		}
	}
	return t
}

func (t *trace) matters(test string) bool {
	if _, ok := t.index[test]; ok || len(t.codes) == mostTests {
		return ok
	}
	t.index[test] = len(t.codes)
	t.codes = append(t.codes, nil)
	return true
}

// outcomes gives each outcome of a test, in any system of the tree, a value. A
// test that one step asks has two, what counts and what doesn't: only a second
// step could be left by another way than the first, and has to tell them apart.
func (d *draft) outcomes(e Evidence) map[string]byte {
	codes, asked := map[string]byte{}, 0
	for _, s := range d.tree.Steps {
		if s.Kind == Ask && s.Test == e.Test {
			asked++
		}
	}
	for _, o := range append(d.outcomesOf(e.Test), Unsure) {
		switch {
		case asked > 1:
			codes[o] = firstOutcome + byte(min(len(codes), 200))
		case slices.Contains(e.Bands, o):
			codes[o] = firstOutcome
		default:
			codes[o] = firstOutcome + 1
		}
	}
	return codes
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
	out := set{id: true}
	for grown := true; grown; {
		grown = false
		for _, s := range d.tree.Steps {
			if !out[s.ID] && slices.ContainsFunc(d.ways(s), func(w edge) bool { return out[w.to] }) {
				out[s.ID], grown = true, true
			}
		}
	}
	return out
}

// search visits every step that leads there with everything that may be known.
func (t *trace) search() {
	t.visit(t.d.tree.Begin, state{}, -1)
	for i := 0; i < len(t.reach) && len(t.reach) < mostSpots; i++ {
		step := t.d.tree.Step(t.reach[i].step)
		if step == nil {
			continue
		}
		for _, way := range t.d.ways(step) {
			if !t.leading[way.to] {
				continue
			}
			for _, known := range t.leave(step, way, t.reach[i].known) {
				t.visit(way.to, known, i)
			}
		}
	}
}

func (t *trace) visit(step string, known state, before int) {
	seen := t.seen[step]
	if seen == nil {
		seen = map[state]bool{}
		t.seen[step] = seen
	}
	if !seen[known] {
		seen[known] = true
		t.reach = append(t.reach, spot{step, known, before})
	}
}

// leave is what may be known after a step was left by a way; nothing when it
// can't be left so, because the test was answered otherwise before.
func (t *trace) leave(s *Step, way edge, known state) []state {
	switch {
	case s.Kind == Ask:
		return t.ask(s, way, known)
	case s.Kind == Do && way.outcome != declined:
		for id := range t.d.staled(s) {
			if i, ok := t.index[id]; ok {
				known[i] = notKnown
			}
		}
	case s.Kind == Sub:
		return t.sub(t.b.flows[s.Tree], known)
	}
	return []state{known}
}

func (t *trace) ask(s *Step, way edge, now state) []state {
	for input := range t.d.withInputs(s.Test) {
		if i, ok := t.index[input]; ok && now[i] == notKnown {
			now[i] = known
		}
	}
	i, ok := t.index[s.Test]
	if !ok || t.codes[i] == nil {
		return []state{now}
	}
	code := t.codes[i][way.outcome]
	if now[i] != known && now[i] != code {
		return nil
	}
	now[i] = code
	return []state{now}
}

// sub is what may be known after another tree was walked: what it always asks
// is known, what it may ask may be.
func (t *trace) sub(f *flow, now state) []state {
	out := []state{now}
	for id, i := range t.index {
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
	for ; at >= 0; at = t.reach[at].before {
		steps = append(steps, t.reach[at].step)
	}
	slices.Reverse(steps)
	return steps
}
