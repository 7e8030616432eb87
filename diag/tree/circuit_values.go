package tree

import "benchlead/diag/formula"

// Span is what a value of numbers usually is, and the least and most that it is
// drawn between, in base units, from what is known of the label, the bench and
// the values before it. A value that doesn't differ has all three the same. The
// errors are those of formulas; a value of words has no numbers.
func (v Value) Span(k *formula.Known) (usual, from, to float64, err error) {
	if usual, err = v.in(k, v.Usual); err != nil || v.From == nil || v.To == nil {
		return usual, usual, usual, err
	}
	if from, err = v.in(k, v.From); err != nil {
		return 0, 0, 0, err
	}
	if to, err = v.in(k, v.To); err != nil {
		return 0, 0, 0, err
	}
	return usual, from, to, nil
}

func (v Value) in(k *formula.Known, f *formula.Formula) (float64, error) {
	if f == nil {
		return 0, &formula.Missing{Names: []string{v.ID}}
	}
	value, err := f.EvalIn(k)
	return value * scaleOf(f, v.PerUnit), err
}
