package tree

import (
	"fmt"
	"math"
	"strconv"

	"benchlead/diag/formula"
)

// sample is a set of label values to try limits at.
type sample struct {
	values formula.Values
	says   string // "label.cells = 5"; empty for the defaults
}

// The temperatures at which limits are tried, degC: a bench, and the coldest
// and hottest that work is done at.
var benches = []float64{20, -10, 40}

// samples are the defaults, and each field in turn at its least, its most, or
// each of its options, with whatever depends on it following.
func samples(fields []LabelField) []sample {
	var out []sample
	for _, celsius := range benches {
		s := sample{values: labelled(fields, nil, nil, celsius)}
		if celsius != benches[0] {
			s.says = "bench.celsius = " + number64(celsius)
		}
		out = append(out, s)
	}
	for _, f := range fields {
		name := labelDot + f.ID
		for _, word := range f.Options {
			out = append(out, sample{labelled(fields, nil, map[string]string{f.ID: word}, benches[0]), name + " = " + word})
		}
		if len(f.Options) > 0 {
			continue
		}
		for _, v := range []float64{f.Least, f.Most} {
			out = append(out, sample{labelled(fields, map[string]float64{f.ID: v}, nil, benches[0]), name + " = " + shownIn(v, f.Unit, f.PerUnit)})
		}
	}
	return out
}

func number64(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// shownIn is a value in base units as the display unit shows it.
func shownIn(v float64, unit string, per float64) string {
	if per > 0 {
		v /= per
	}
	if unit == "" {
		return number64(v)
	}
	return number64(v) + " " + unit
}

// checkLabel: a default lies between the field's least and most.
func (b *builder) checkLabel(n *systemNotes) {
	for _, f := range n.system.Label {
		v, known := n.usual[0].values.Numbers[labelDot+f.ID]
		if !known || f.Default == nil || f.Least >= f.Most || v >= f.Least && v <= f.Most {
			continue
		}
		b.report(CodeBadNumber, f.Default.Origin().Start(), fmt.Sprintf("the default of %q comes to %s, outside its least and most", f.ID, shownIn(v, f.Unit, f.PerUnit)),
			"change the default, or the limits")
	}
}

// checkValues tries the limits of every test at every sample.
func (b *builder) checkValues(n *systemNotes) {
	for _, t := range n.system.Tests {
		if n.uncut[t.ID] {
			continue // what follows from a limit that was reported
		}
		for i, s := range n.usual {
			if b.cutsDescend(t, s, i == 0) {
				break
			}
		}
		b.readingsFit(n, t, n.usual[0])
		for _, s := range n.usual {
			if b.spanUpsideDown(n, t, s) {
				break
			}
		}
	}
}

func at(s sample) string {
	if s.says == "" {
		return "with a label left at its defaults"
	}
	return "with " + s.says
}

// cutsDescend reports the first cut that isn't above the one before it. At the
// far ends of the label two cuts may meet; a band between them is then empty.
func (b *builder) cutsDescend(t *Test, s sample, usual bool) bool {
	below, lower := math.Inf(-1), ""
	for _, band := range t.Bands {
		if band.Below == nil {
			continue
		}
		cut, err := band.Cut(s.values)
		if err != nil {
			continue
		}
		if cut < below || usual && cut == below {
			b.report(CodeCutOrder, band.Below.Origin().Start(), fmt.Sprintf("%s the cut of %q is %s, not above %s of %q",
				at(s), band.Name, shownIn(cut, t.Unit, t.PerUnit), shownIn(below, t.Unit, t.PerUnit), lower),
				"put the bands in order, low to high, or bound the cut with min() or max()")
			return true
		}
		below, lower = cut, band.Name
	}
	return false
}

// spanUpsideDown reports a range whose low end is above its high end, and a
// healthy range that the program would ask about.
func (b *builder) spanUpsideDown(n *systemNotes, t *Test, s sample) bool {
	shape := n.testShapes[t.ID]
	low, high, ok := limits(t.Healthy, s.values)
	least, most, asks := limits(t.Possible, s.values)
	unit := func(v float64) string { return shownIn(v, t.Unit, t.PerUnit) }
	switch {
	case ok && low > high:
		b.report(CodeSpan, shape.Healthy.From.Place, fmt.Sprintf("%s healthy runs from %s down to %s", at(s), unit(low), unit(high)), "swap from and to")
	case asks && least >= most:
		b.report(CodeSpan, shape.Possible.From.Place, fmt.Sprintf("%s possible runs from %s down to %s", at(s), unit(least), unit(most)), "swap from and to")
	case ok && asks && !math.IsInf(low, 0) && low < least:
		b.report(CodePossible, shape.Healthy.From.Place, fmt.Sprintf("%s healthy begins at %s, below %s where possible begins", at(s), unit(low), unit(least)), "widen possible:, or raise healthy:")
	case ok && asks && !math.IsInf(high, 0) && high > most:
		b.report(CodePossible, shape.Healthy.To.Place, fmt.Sprintf("%s healthy ends at %s, above %s where possible ends", at(s), unit(high), unit(most)), "widen possible:, or lower healthy:")
	default:
		return false
	}
	return true
}

func limits(s *Span, v formula.Values) (low, high float64, ok bool) {
	if s == nil {
		return 0, 0, false
	}
	low, high, err := s.Limits(v)
	return low, high, err == nil
}
