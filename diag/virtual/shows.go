package virtual

import (
	"errors"
	"math"
	"strconv"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Bench is what a test is taken with.
type Bench struct {
	// Meter has a table of scales that must not change while a Maker's machines are
	// asked.
	Meter measure.Meter
	// Noise lets the meter be wrong within its accuracy: by one share of every
	// reading for each scale of the machine's meter, and by its counts for each
	// reading.
	Noise bool
	// Slips is the share of answers that are wrong because of the hand or the
	// eye: 0.01 is one in a hundred.
	Slips float64
	// Untaken is the share of tests that can't be taken on a machine, however often
	// one tries.
	Untaken float64
	Take    int // how often the test was taken before; each time has its own noise
	// Bare leaves out the text of readings, for a caller that wants only values.
	Bare bool
}

// Shown is what the bench writes down.
type Shown struct {
	Reading measure.Reading // of a metered test
	Choice  string          // of an observation
	Slipped bool
}

// Shows is what the meter displays for a test, or what is seen. The errors are
// those of Answer, and a *measure.ScaleError for a meter without the function.
func (m *Machine) Shows(test *tree.Test, b Bench) (Shown, error) {
	if b.Untaken > 0 && m.chance.uniform("untaken", test.ID) < b.Untaken {
		return Shown{}, &Untaken{test.ID}
	}
	slips := b.Slips > 0 && m.chance.uniform("slip", reading(test, b)) < b.Slips
	if test.Kind != tree.Metered {
		a, err := m.Answer(test)
		out := Shown{Choice: a.Choice}
		if slips && err == nil {
			out = m.misseen(test, b, out)
		}
		return out, err
	}
	if slips {
		return m.misread(test, b)
	}
	r, err := m.display(test, b)
	return Shown{Reading: r}, err
}

// reading names one taking of a test.
func reading(test *tree.Test, b Bench) string { return test.ID + "#" + strconv.Itoa(b.Take) }

// display is the reading on the meter's smallest scale that holds it.
func (m *Machine) display(test *tree.Test, b Bench) (measure.Reading, error) {
	a, err := m.Answer(test)
	if err != nil {
		return measure.Reading{}, err
	}
	if a.Over {
		return m.over(test, b)
	}
	with, size := ideal(test.Function), a.Value
	var r measure.Reading
	for range 4 { // a scale's resistance and error may ask for another one
		scale, err := m.maker.scale(b.Meter, test.Function, size)
		if err != nil {
			return m.tooMuch(test, b, err)
		}
		if r.Range == scale.FullScale {
			break
		}
		if now := instrumentOf(b.Meter, scale); now != with {
			with = now
			if a, err = m.metered(test, with); err != nil {
				return measure.Reading{}, err
			}
		}
		if a.Over {
			return m.over(test, b)
		}
		next := m.onScale(test, b, scale, a)
		if r.Range > scale.FullScale && math.Abs(next.Value) > scale.FullScale {
			break // at the edge of two scales: the higher one stays
		}
		if r = next; r.Kind == measure.Flicker {
			break
		}
		size = r.Value
	}
	return told(r, test, b), nil
}

// told is a reading with its text.
func told(r measure.Reading, test *tree.Test, b Bench) measure.Reading {
	if !b.Bare {
		r.Text = measure.FormatReading(r, test.Unit, test.PerUnit)
	}
	return r
}

// onScale is an answer as a scale displays it, without its text. Its Value may be
// above the scale.
func (m *Machine) onScale(test *tree.Test, b Bench, s measure.Scale, a Answer) measure.Reading {
	r := measure.Reading{Function: test.Function, Kind: measure.Number, Step: s.Resolution, Range: s.FullScale}
	bridged := s.Percent/100*math.Max(math.Abs(a.Low), math.Abs(a.High)) + s.Counts*s.Resolution
	if a.High-a.Low > bridged {
		r.Kind = measure.Flicker
	} else {
		r.Value = rounded(m.noisy(test, b, s, a.Value), s.Resolution)
	}
	return r
}

// noisy is a value with the meter's error: that of the scale, the same for all
// its readings of this machine, and that of the reading.
func (m *Machine) noisy(test *tree.Test, b Bench, s measure.Scale, v float64) float64 {
	if !b.Noise {
		return v
	}
	scale := b.Meter.ID + " " + string(s.Function) + " " + strconv.FormatFloat(s.FullScale, 'g', -1, 64)
	gain := 2*m.chance.uniform("gain", scale) - 1
	counts := 2*m.chance.uniform("counts", reading(test, b)) - 1
	v += gain*s.Percent/100*v + counts*s.Counts*s.Resolution
	switch test.Function {
	case measure.DCVolts, measure.DCAmps, measure.ClampAmps, measure.Celsius:
		return v
	}
	return math.Max(0, v) // the others show no sign
}

// over is an over-range display; a meter without the function shows none.
func (m *Machine) over(test *tree.Test, b Bench) (measure.Reading, error) {
	_, err := m.maker.scale(b.Meter, test.Function, 0)
	return told(measure.Reading{Function: test.Function, Kind: measure.OverRange}, test, b), err
}

// tooMuch tells a value above every scale from a function that is missing.
func (m *Machine) tooMuch(test *tree.Test, b Bench, err error) (measure.Reading, error) {
	var scale *measure.ScaleError
	if errors.As(err, &scale) && len(scale.Have) > 0 {
		return m.over(test, b)
	}
	return measure.Reading{}, err
}
