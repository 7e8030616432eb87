package tree

import (
	"cmp"
	"fmt"

	"benchlead/diag/formula"
)

// bands builds the bands of a test, low to high.
func (b *builder) bands(n *systemNotes, t *Test, s testShape) []Band {
	known := newRegister("band", "", "bands")
	var out []Band
	for i, shape := range s.Bands {
		if !b.add(known, shape.Band, words) {
			continue
		}
		b.notAnOutcome(shape.Band)
		band := Band{
			Name: shape.Band.Text, Clears: b.referAll(n.faults, shape.Clears), Says: b.tell(shape.Says),
			Place: shape.Band.Place,
		}
		band.Basis, band.Source = b.basis(shape.Basis)
		band.Danger, band.Take = b.dangerAndTake(n, shape.Danger, shape.Take)
		if c := b.lib.Cautions[band.Danger]; c != nil {
			band.Likely = c.Likely
		}
		band.Stops = b.stops(shape.Stops, shape.Danger)
		for _, reading := range shape.SuchAs {
			band.SuchAs = append(band.SuchAs, reading.Value*cmp.Or(t.PerUnit, 1))
		}
		band.Below = b.limit(n, t, shape.Below)
		band.scale = scaleOf(band.Below, t.PerUnit)
		b.cutFits(n, t, shape, i == len(s.Bands)-1)
		out = append(out, band)
	}
	if len(s.Bands) == 0 {
		b.report(CodeMissing, s.Test.Place, fmt.Sprintf("%q has no bands", s.Test.Text), "add bands: low to high, the last one without below:")
	}
	return out
}

// cutFits: every band but the last has a cut, and every cut a basis.
func (b *builder) cutFits(n *systemNotes, t *Test, s bandShape, last bool) {
	cut := s.Below.Place.Line > 0
	switch {
	case last && cut:
		n.uncut[t.ID] = true
		b.report(CodeLastCut, s.Below.Place, fmt.Sprintf("%q is the last band, and has a cut: a value above it would be in no band", s.Band.Text), "take below: away, or add a band after it")
	case !last && !cut && s.Band.Given():
		n.uncut[t.ID] = true
		b.report(CodeNoCut, s.Band.Place, fmt.Sprintf("%q has no cut, and bands follow it", s.Band.Text), "add below: VALUE")
	case cut && !s.Basis.Given():
		b.report(CodeNoBasis, s.Below.Place, fmt.Sprintf("nothing says where the cut of %q is from", s.Band.Text), "add basis: an id of sources, practice, or memory")
	}
}

// limit compiles a cut, or an end of a range. One made of fields without a unit is in
// the unit of the test, as a bare number is: that is a thousand times too little in
// mV when the field was only left without its unit.
func (b *builder) limit(n *systemNotes, t *Test, e expression) *formula.Formula {
	f := b.compile(e, n.names, t.dim)
	if f == nil {
		if e.Place.Line > 0 {
			n.uncut[t.ID] = true
		}
		return nil
	}
	if !f.Bare() || t.dim == formula.Plain || t.PerUnit == 1 {
		return f
	}
	for _, name := range f.Needs() {
		if _, number := n.names.Numbers[name]; number {
			b.report(CodeWrongUnit, e.Place, fmt.Sprintf("%s has no unit, so this comes to a plain number and would count as %s", name, t.Unit),
				fmt.Sprintf("give the field its unit:; if it is a count, leave in: %s out of the test", t.Unit))
			n.uncut[t.ID] = true
			break
		}
	}
	return f
}

func (b *builder) span(n *systemNotes, t *Test, s *spanShape) *Span {
	if s == nil {
		return nil
	}
	span := &Span{Say: b.title(s.Say)}
	span.From = b.limit(n, t, s.From)
	span.To = b.limit(n, t, s.To)
	span.fromScale, span.toScale = scaleOf(span.From, t.PerUnit), scaleOf(span.To, t.PerUnit)
	if s.From.Place.Line == 0 && s.To.Place.Line == 0 {
		b.report(CodeMissing, s.Place, "a range needs a limit", "add from: or to:, or both")
	}
	return span
}

// scaleOf is how many base units one unit of the formula's result holds: a bare
// number is in the test's display unit.
func scaleOf(f *formula.Formula, perUnit float64) float64 {
	if f != nil && f.Bare() && perUnit > 0 {
		return perUnit
	}
	return 1
}
