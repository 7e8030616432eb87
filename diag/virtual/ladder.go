package virtual

import (
	"math"

	"benchlead/diag/measure"
)

// ladder is the scales of a meter for one function, each smaller than the next:
// what Meter.Scale chooses from, for a meter that is asked a hundred times over.
type ladder struct {
	table    *measure.Scale // the first of the meter's scales, and how many there are
	length   int
	function measure.Function
	rungs    []measure.Scale
}

// mostLadders is how many a Maker remembers; then it starts anew.
const mostLadders = 64

// scale is the meter's smallest scale of a function that holds a value. The error
// is that of Meter.Scale.
func (m *Maker) scale(meter measure.Meter, f measure.Function, value float64) (measure.Scale, error) {
	if len(meter.Scales) > 0 {
		for _, s := range m.ladder(meter, f).rungs {
			if s.FullScale >= math.Abs(value) {
				return s, nil
			}
		}
	}
	return meter.Scale(measure.Reading{Function: f, Value: value})
}

func (m *Maker) ladder(meter measure.Meter, f measure.Function) *ladder {
	for i := range m.ladders {
		l := &m.ladders[i]
		if l.table == &meter.Scales[0] && l.length == len(meter.Scales) && l.function == f {
			return l
		}
	}
	if len(m.ladders) >= mostLadders {
		m.ladders = m.ladders[:0]
	}
	l := ladder{table: &meter.Scales[0], length: len(meter.Scales), function: f}
	for value := 0.0; ; {
		s, err := meter.Scale(measure.Reading{Function: f, Value: value})
		if err != nil {
			break
		}
		l.rungs = append(l.rungs, s)
		value = math.Nextafter(s.FullScale, math.Inf(1))
	}
	m.ladders = append(m.ladders, l)
	return &m.ladders[len(m.ladders)-1]
}
