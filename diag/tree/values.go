package tree

import (
	"math"

	"benchlead/diag/formula"
)

// Cut is the limit at the top of the band, in base units: +Inf for the last
// band. The error says which names are unknown, or that the formula has no
// value there.
func (b Band) Cut(v formula.Values) (float64, error) {
	return limit(b.Below, b.scale, v, math.Inf(1))
}

// Limits is the span in base units; an open end is infinite. The error is as in
// Cut.
func (s Span) Limits(v formula.Values) (low, high float64, err error) {
	if low, err = limit(s.From, s.fromScale, v, math.Inf(-1)); err != nil {
		return 0, 0, err
	}
	if high, err = limit(s.To, s.toScale, v, math.Inf(1)); err != nil {
		return 0, 0, err
	}
	return low, high, nil
}

// DefaultValue is what the field is taken to be when the label doesn't say, in
// base units, from the fields before it. The error is as in Cut; a field that
// is chosen from words has no number.
func (f LabelField) DefaultValue(v formula.Values) (float64, error) {
	if f.Default == nil {
		return 0, &formula.Missing{Names: []string{labelDot + f.ID}}
	}
	return limit(f.Default, scaleOf(f.Default, f.PerUnit), v, 0)
}

// FromValue is the value of a worked-out test in base units, from the values of
// the tests it names. The error is as in Cut.
func (t *Test) FromValue(v formula.Values) (float64, error) {
	if t.From == nil {
		return 0, &formula.Missing{Names: []string{t.ID}}
	}
	return limit(t.From, scaleOf(t.From, t.PerUnit), v, 0)
}

// FromSlopes is how much a worked-out test changes with each of the named
// inputs, base units by base units.
func (t *Test) FromSlopes(v formula.Values, names []string) ([]float64, error) {
	if t.From == nil {
		return nil, &formula.Missing{Names: []string{t.ID}}
	}
	slopes, err := t.From.Slopes(v, names)
	scale := scaleOf(t.From, t.PerUnit)
	for i := range slopes {
		slopes[i] *= scale
	}
	return slopes, err
}

func limit(f *formula.Formula, scale float64, v formula.Values, open float64) (float64, error) {
	if f == nil {
		return open, nil
	}
	value, err := f.Eval(v)
	if err != nil {
		return 0, err
	}
	if scale > 0 {
		value *= scale
	}
	return value, nil
}
