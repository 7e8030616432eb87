package tree

import (
	"fmt"
	"slices"
)

// What is known of a test on the way to a step. Values from firstOutcome on are
// an outcome each.
const (
	notKnown byte = iota
	known         // asked somewhere; it may have come out any way
	firstOutcome
)

// mostStates bounds the search; trees of ours need a few hundred.
const mostStates = 50_000

// checkEvidence: what a finding rests on is asked on every way to it, and can
// come out so on some way.
func (b *builder) checkEvidence(d *draft) {
	for _, s := range d.tree.Steps {
		if s.Kind == Find || s.Kind == Clear {
			b.evidence(d, s)
		}
	}
}

// trace is a search through all ways to a step, keeping what is known of the
// tests that matter there.
type trace struct {
	b     *builder
	d     *draft
	tests []string          // that matter
	index map[string]int    // of them
	codes []map[string]byte // by test: outcome to its value
	reach []spot
	seen  map[spot]int // to the spot before, as an index of reach; -1: none
}

// spot is a step with what is known there, one byte a test.
type spot struct{ step, known string }

func (b *builder) evidence(d *draft, s *Step) {
	t := &trace{b: b, d: d, index: map[string]int{}, seen: map[spot]int{}}
	for _, e := range s.By {
		t.matters(e.Test)
	}
	for _, e := range s.By {
		for input := range d.withInputs(e.Test) {
			t.matters(input)
		}
	}
	t.search()
	if len(t.reach) >= mostStates {
		return
	}
	b.evidenceAsked(t, s)
	b.evidenceHolds(t, s)
}

func (t *trace) matters(test string) {
	if _, ok := t.index[test]; ok {
		return
	}
	t.index[test] = len(t.tests)
	t.tests = append(t.tests, test)
	codes := map[string]byte{}
	for _, n := range t.d.notes {
		tested := n.system.Test(test)
		if tested == nil {
			continue
		}
		for _, o := range append(tested.Outcomes(), Unsure) {
			if _, ok := codes[o]; !ok && len(codes) < 200 {
				codes[o] = firstOutcome + byte(len(codes))
			}
		}
	}
	t.codes = append(t.codes, codes)
}

// search visits every step with everything that may be known there.
func (t *trace) search() {
	start := spot{t.d.tree.Begin, string(make([]byte, len(t.tests)))}
	t.reach, t.seen[start] = []spot{start}, -1
	for i := 0; i < len(t.reach) && len(t.reach) < mostStates; i++ {
		step := t.d.tree.Step(t.reach[i].step)
		if step == nil {
			continue
		}
		for _, way := range ways(step) {
			for _, known := range t.leave(step, way, []byte(t.reach[i].known)) {
				next := spot{way.to, known}
				if _, ok := t.seen[next]; !ok {
					t.seen[next] = i
					t.reach = append(t.reach, next)
				}
			}
		}
	}
}

// leave is what may be known after a step was left by a way; nothing when it
// can't be left so, because the test was answered otherwise before.
func (t *trace) leave(s *Step, way edge, state []byte) []string {
	switch {
	case s.Kind == Ask:
		return t.ask(s, way, state)
	case s.Kind == Do && way.outcome != declined:
		t.forget(t.d.staled(s.Stales), state)
	case s.Kind == Sub:
		return t.sub(t.b.flows[s.Tree], state)
	}
	return []string{string(state)}
}

func (t *trace) ask(s *Step, way edge, state []byte) []string {
	for input := range t.d.withInputs(s.Test) {
		if i, ok := t.index[input]; ok && state[i] == notKnown {
			state[i] = known
		}
	}
	i, ok := t.index[s.Test]
	if !ok {
		return []string{string(state)}
	}
	code := t.codes[i][way.outcome]
	if state[i] != known && state[i] != code {
		return nil
	}
	state[i] = code
	return []string{string(state)}
}

func (t *trace) forget(tests set, state []byte) {
	for i, id := range t.tests {
		if tests[id] {
			state[i] = notKnown
		}
	}
}

// sub is what may be known after another tree was walked: what it always asks
// is known, what it may ask may be.
func (t *trace) sub(f *flow, state []byte) []string {
	out := []string{string(state)}
	if f == nil {
		return out
	}
	for i, id := range t.tests {
		var values []byte
		switch {
		case f.always[id] && (f.stales[id] || state[i] == notKnown):
			values = []byte{known}
		case f.stales[id], f.asks[id] && state[i] == notKnown:
			values = []byte{notKnown, known}
		default:
			continue
		}
		out = branch(out, i, values)
	}
	return out
}

// branch sets byte i of each state to each of the values.
func branch(states []string, i int, values []byte) []string {
	var out []string
	for _, s := range states {
		for _, v := range values {
			changed := []byte(s)
			changed[i] = v
			out = append(out, string(changed))
		}
	}
	return out
}

// isKnown says whether a test has an answer: its own, or those of all that it
// is worked out from.
func (t *trace) isKnown(id, state string) bool {
	if i, ok := t.index[id]; ok && state[i] != notKnown {
		return true
	}
	test := t.d.test(id)
	if test == nil || test.Kind != Worked || len(test.Inputs()) == 0 {
		return false
	}
	return !slices.ContainsFunc(test.Inputs(), func(input string) bool { return !t.isKnown(input, state) })
}

// holds says whether the state lets the evidence hold.
func (t *trace) holds(e Evidence, state string) bool {
	i := t.index[e.Test]
	if state[i] <= known {
		return t.isKnown(e.Test, state)
	}
	return slices.ContainsFunc(e.Bands, func(band string) bool { return t.codes[i][band] == state[i] })
}

func (b *builder) evidenceAsked(t *trace, s *Step) {
	for _, e := range s.By {
		for _, at := range t.reach {
			if at.step == s.ID && !t.isKnown(e.Test, at.known) {
				b.report(CodeNotAsked, e.Place, fmt.Sprintf("%q isn't asked on every way to %q: not on %s", e.Test, s.ID, arrows(t.path(at))),
					"ask it on that way, or lead that way past this step")
				break
			}
		}
	}
}

func (t *trace) path(at spot) []string {
	var steps []string
	for {
		steps = append(steps, at.step)
		before := t.seen[at]
		if before < 0 {
			break
		}
		at = t.reach[before]
	}
	slices.Reverse(steps)
	return steps
}

// evidenceHolds reports evidence that no walk can bring along to its step.
func (b *builder) evidenceHolds(t *trace, s *Step) {
	together, each := false, make([]bool, len(s.By))
	for _, at := range t.reach {
		if at.step != s.ID {
			continue
		}
		all := true
		for i, e := range s.By {
			ok := t.holds(e, at.known) || !t.isKnown(e.Test, at.known)
			each[i] = each[i] || ok
			all = all && ok
		}
		together = together || all
	}
	for i, e := range s.By {
		if !each[i] {
			b.report(CodeNeverHolds, e.Place, fmt.Sprintf("no way to %q leaves %q at %s", s.ID, e.Test, quoted(e.Bands)), "route that band here, or name the bands that lead here")
			return
		}
	}
	if !together && len(s.By) > 0 {
		b.report(CodeNeverHolds, s.Place, fmt.Sprintf("no way to %q brings all of its evidence together", s.ID), "name the bands that lead here, or find it by less")
	}
}
