package tree

import (
	"slices"
	"strings"

	"benchlead/diag/source"
)

// edge is one way on from a step.
type edge struct {
	outcome string // band, choice, unsure, shown, cleared; "" when there is one way; declined
	to      string
}

const declined = "declined"

// ways are the ways on from a step, in a fixed order.
func (d *draft) ways(s *Step) []edge {
	if d.edges[s.ID] == nil {
		d.edges[s.ID] = waysOf(s)
	}
	return d.edges[s.ID]
}

func waysOf(s *Step) []edge {
	var out []edge
	for outcome, to := range s.Then {
		out = append(out, edge{outcome, to})
	}
	slices.SortFunc(out, func(a, b edge) int { return strings.Compare(a.outcome, b.outcome) })
	if s.Next != "" {
		out = append(out, edge{"", s.Next})
	}
	if s.Else != "" {
		out = append(out, edge{declined, s.Else})
	}
	return out
}

// set is a set of ids.
type set map[string]bool

func (s set) addAll(other set) {
	for id := range other {
		s[id] = true
	}
}

// flow is what walking a tree to its end does, as a tree that walks it sees it.
type flow struct {
	always set // tests that are asked on every way to the end and still known there
	asks   set // tests that may be asked
	stales set // tests that may be made unknown
	finds  set // faults that may be found
	clears set // faults that a step or a band of a test asked may clear
}

// flowOf works out the flow of a tree whose sub-trees' flows are known.
func (b *builder) flowOf(d *draft) *flow {
	f := &flow{asks: set{}, stales: set{}, finds: set{}, clears: set{}}
	for _, s := range d.tree.Steps {
		switch s.Kind {
		case Ask:
			f.asks.addAll(d.withInputs(s.Test))
		case Do:
			f.stales.addAll(d.staled(s))
		case Find:
			f.finds[s.Fault] = true
		case Clear:
			f.clears[s.Fault] = true
		case Sub:
			if sub := b.flows[s.Tree]; sub != nil {
				f.asks.addAll(sub.asks)
				f.stales.addAll(sub.stales)
				f.finds.addAll(sub.finds)
				f.clears.addAll(sub.clears)
			}
		}
	}
	for _, n := range d.notes {
		for _, t := range n.system.Tests {
			if f.asks[t.ID] {
				f.clears.addAll(clearedBy(t))
			}
		}
	}
	f.always = b.alwaysAsked(d)
	return f
}

func clearedBy(t *Test) set {
	out := set{}
	for _, band := range t.Bands {
		for _, fault := range band.Clears {
			out[fault] = true
		}
	}
	for _, c := range t.Choices {
		for _, fault := range c.Clears {
			out[fault] = true
		}
	}
	return out
}

// test is the test of that id in the first system that has it.
func (d *draft) test(id string) *Test {
	for _, n := range d.notes {
		if t := n.system.Test(id); t != nil {
			return t
		}
	}
	return nil
}

// withInputs is a test and all that it is worked out from. The set is kept.
func (d *draft) withInputs(id string) set {
	out, ok := d.inputs[id]
	if !ok {
		out = set{}
		d.addInputs(id, out)
		d.inputs[id] = out
	}
	return out
}

func (d *draft) addInputs(id string, out set) {
	t := d.test(id)
	if t == nil || out[id] {
		return
	}
	out[id] = true
	for _, input := range t.Inputs() {
		d.addInputs(input, out)
	}
}

// staled is the tests that a piece of work makes unknown, and all that is worked
// out from them. The set is kept.
func (d *draft) staled(s *Step) set {
	if out, ok := d.stales[s.ID]; ok {
		return out
	}
	out := set{}
	for _, n := range d.notes {
		for _, id := range n.system.StaledBy(s) {
			out[id] = true
		}
	}
	for _, n := range d.notes {
		for _, t := range n.system.Tests {
			if t.Kind != Worked {
				continue
			}
			for id := range d.withInputs(t.ID) {
				if out[id] {
					out[t.ID] = true
				}
			}
		}
	}
	d.stales[s.ID] = out
	return out
}

// alwaysAsked is the tests that are known on every way from begin to the end:
// at each step, what all ways to it have in common.
func (b *builder) alwaysAsked(d *draft) set {
	known := map[string]set{d.tree.Begin: {}}
	work := []string{d.tree.Begin}
	for len(work) > 0 {
		step := d.tree.Step(work[0])
		work = work[1:]
		if step == nil {
			continue
		}
		for _, way := range d.ways(step) {
			after := b.after(d, step, way, known[step.ID])
			before, seen := known[way.to]
			common := after
			if seen {
				common = both(before, after)
			}
			if !seen || len(common) < len(before) {
				known[way.to] = common
				work = append(work, way.to)
			}
		}
	}
	if end := known[End]; end != nil {
		return end
	}
	return set{}
}

func both(a, b set) set {
	out := set{}
	for id := range a {
		if b[id] {
			out[id] = true
		}
	}
	return out
}

// after is what is known once a step was left by one of its ways.
func (b *builder) after(d *draft, s *Step, way edge, known set) set {
	out := set{}
	out.addAll(known)
	var gone set
	switch {
	case s.Kind == Ask:
		out.addAll(d.withInputs(s.Test))
	case s.Kind == Do && way.outcome != declined:
		gone = d.staled(s)
	case s.Kind == Sub && b.flows[s.Tree] != nil:
		gone = b.flows[s.Tree].stales
	}
	for id := range gone {
		delete(out, id)
	}
	if s.Kind == Sub && b.flows[s.Tree] != nil {
		out.addAll(b.flows[s.Tree].always)
	}
	return out
}

// place is where a step's route for an outcome is written.
func (d *draft) place(step, outcome string) source.Place {
	s := d.shapes[step]
	if s.Then == nil {
		return s.ID.Place
	}
	for _, r := range s.Then.Routes {
		if r.Key.Text == outcome {
			return r.Value.Place
		}
	}
	return s.Then.Place
}
