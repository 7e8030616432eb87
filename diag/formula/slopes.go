package formula

import "math"

// The step of the difference quotients, as a share of the value; and the size
// that a value of zero is taken to have.
const (
	step      = 1e-3
	leastSize = 1e-3
)

// Slopes is how fast the result changes with each of the named numbers: the
// partial derivatives at v, by central differences at two step widths that are
// extrapolated to none (Richardson), good to 1e-6 of the slope where the
// formula is smooth. A name that the formula doesn't mention, or that is a
// word, has slope 0. Errors are those of Eval.
func (f *Formula) Slopes(v Values, names []string) ([]float64, error) {
	k, slopes := f.known(v), make([]float64, len(names))
	_, err := f.EvalIn(k)
	if err != nil {
		return nil, err
	}
	for i, name := range names {
		if _, ok := f.names.Numbers[name]; !ok {
			continue
		}
		if slopes[i], err = f.slope(k, name); err != nil {
			return nil, err
		}
	}
	return slopes, nil
}

func (f *Formula) slope(k *Known, name string) (float64, error) {
	size := step * math.Max(math.Abs(k.numbers[k.Place(name)]), leastSize)
	wide, err := f.quotient(k, name, size)
	if err != nil {
		return 0, err
	}
	narrow, err := f.quotient(k, name, size/2)
	if err != nil {
		return 0, err
	}
	return (4*narrow - wide) / 3, nil
}

// quotient is the difference quotient around a value; it leaves k as it was.
func (f *Formula) quotient(k *Known, name string, size float64) (float64, error) {
	place := k.Place(name)
	at := k.numbers[place]
	defer k.SetAt(place, at)
	up, down := at+size, at-size
	k.SetAt(place, up)
	above, err := f.EvalIn(k)
	if err != nil {
		return 0, err
	}
	k.SetAt(place, down)
	below, err := f.EvalIn(k)
	if err != nil {
		return 0, err
	}
	return (above - below) / (up - down), nil
}
