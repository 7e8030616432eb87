package tree

import (
	"fmt"
	"slices"
)

// fragments are the pieces that circuits include, by id, and which are used.
type fragments struct {
	known *register
	of    map[string]*fragmentShape
	used  set
}

func (b *builder) fragments() *fragments {
	f := &fragments{known: newRegister("piece of a circuit", "", "fragment"), of: map[string]*fragmentShape{}, used: set{}}
	for _, s := range b.fragmentShapes {
		if b.add(f.known, s.Fragment, plainID) {
			f.of[s.Fragment.Text] = s
		}
	}
	return f
}

// into is the circuit with what it includes before its own: its values may name
// those that are included.
func (f *fragments) into(b *builder, s *circuitShape) *circuitShape {
	var all circuitContents
	for _, id := range b.referAll(f.known, s.Include) {
		f.used[id] = true
		all = mergedCircuits(all, f.of[id].circuitContents)
	}
	whole := *s
	switch {
	case s.base != nil:
		whole.circuitContents = s.laidOver(mergedCircuits(all, *s.base), texts(s.Without))
	default:
		whole.circuitContents = mergedCircuits(all, s.circuitContents)
	}
	return &whole
}

func (f *fragments) unused(b *builder) {
	for id, s := range f.of {
		if !f.used[id] && !b.quiet {
			b.report(CodeUnused, s.Fragment.Place, fmt.Sprintf("no circuit includes %q", id), "add it to a circuit's include: list, or take the file away")
		}
	}
}

func mergedCircuits(a, b circuitContents) circuitContents {
	return circuitContents{
		Joints: slices.Concat(a.Joints, b.Joints), Values: slices.Concat(a.Values, b.Values),
		Positions: slices.Concat(a.Positions, b.Positions), States: slices.Concat(a.States, b.States),
		Setups: slices.Concat(a.Setups, b.Setups), Waves: slices.Concat(a.Waves, b.Waves),
		Parts: slices.Concat(a.Parts, b.Parts), Faults: slices.Concat(a.Faults, b.Faults),
		Together: slices.Concat(a.Together, b.Together), Told: slices.Concat(a.Told, b.Told),
		Shows: slices.Concat(a.Shows, b.Shows), Reads: slices.Concat(a.Reads, b.Reads),
		Work: slices.Concat(a.Work, b.Work), Stages: slices.Concat(a.Stages, b.Stages),
		Unmodelled: slices.Concat(a.Unmodelled, b.Unmodelled),
	}
}
