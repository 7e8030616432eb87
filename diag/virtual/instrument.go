package virtual

import (
	"math"
	"strconv"

	"benchlead/diag/circuit"
	"benchlead/diag/measure"
)

// instrument is what a meter is to the circuit.
type instrument struct {
	input float64 // ohm: across the leads on volts, between them on amps
	ac    acMode
	own   circuit.OhmMeter
}

// acMode is how a meter reads ac volts.
type acMode int

const (
	trueRMS   acMode = iota
	averaging        // behind a capacitor
	cheap            // a rectifier without a capacitor: direct current shows too
)

// What meters are to a circuit, where their tables don't say. Service texts ask
// for 10 Mohm on volts; the rest is common practice, no source.
const (
	voltsInput  = 10e6
	ampsBurden  = 0.02 // the 10 A jack
	ohmsSource  = 2.8  // V
	ohmsBehind  = 2200
	diodeBehind = 2800
	leads       = 0.2 // ohm, both together
	leadFarads  = 100e-12
	mostOhms    = 40e6
	mostBeep    = 600
	mostDiode   = 2.0 // V
)

// ideal is the meter behind an Answer.
func ideal(f measure.Function) instrument {
	i := instrument{input: voltsInput, own: circuit.OhmMeter{Volts: ohmsSource, Ohms: ohmsBehind, Leads: leads, Full: mostOhms}}
	switch f {
	case measure.DCAmps:
		i.input = ampsBurden
	case measure.Continuity:
		i.own.Full = mostBeep
	case measure.DiodeTest:
		i.own.Ohms, i.own.Full = diodeBehind, mostDiode
	}
	return i
}

// ofWave is what the meter shows of volts that alternate.
func (i instrument) ofWave(f measure.Function, w circuit.Wave) float64 {
	switch {
	case f == measure.DCVolts:
		return w.Mean
	case i.ac == averaging:
		return w.Average
	case i.ac == cheap:
		return w.Cheap
	}
	return w.True
}

// ofSteady is what the meter shows of volts that don't. A cheap ac range takes
// them for the positive halves of a wave: pi over the square root of 2.
func (i instrument) ofSteady(f measure.Function, v float64) float64 {
	switch {
	case f == measure.DCVolts:
		return v
	case i.ac == cheap:
		return math.Max(0, v) * math.Pi / math.Sqrt2
	}
	return 0
}

// instrumentOf is a meter on one of its scales.
func instrumentOf(meter measure.Meter, s measure.Scale) instrument {
	i := ideal(s.Function)
	if s.InputOhms > 0 {
		i.input = s.InputOhms
	}
	i.own.Full = fullest(meter, s.Function)
	switch {
	case meter.TrueRMS:
	case s.InputOhms > 0 && s.InputOhms < passive:
		i.ac = cheap
	default:
		i.ac = averaging
	}
	return i
}

// passive is the input resistance under which an ac range that doesn't give the
// true RMS is taken for a bare rectifier before the dc range: 450 kohm is usual.
// Common practice, no source.
const passive = 1e6

// fullest is the top of the highest scale of a function.
func fullest(meter measure.Meter, f measure.Function) float64 {
	var full float64
	for _, s := range meter.Scales {
		if s.Function == f {
			full = math.Max(full, s.FullScale)
		}
	}
	return full
}

// rounded is a value as digits show it, without the dust of binary numbers.
func rounded(value, step float64) float64 {
	if !(step > 0) {
		return value
	}
	n := math.Round(value / step)
	var digits [24]byte
	out, err := strconv.ParseFloat(string(strconv.AppendFloat(digits[:0], n*step, 'g', 12, 64)), 64)
	if err != nil {
		return n * step
	}
	return out + 0
}
