package electric

import "math"

// formSine is RMS over rectified mean of a sine, pi/(2 sqrt 2) = 1.1107: the
// factor that an average-responding meter multiplies by (a component maker's
// article on RMS conversion prints 1.111).
const formSine = math.Pi / (2 * math.Sqrt2)

// Wave is what meters average of a signal over one whole period.
type Wave struct {
	Peak      float64
	Above     float64 // mean of the part above zero
	Below     float64 // mean of the part below zero, as a positive number
	Square    float64 // mean of the square
	Deviation float64 // mean distance from the mean
}

// Sine is a sine wave with that peak.
func Sine(peak float64) Wave {
	return Wave{
		Peak: peak, Above: peak / math.Pi, Below: peak / math.Pi,
		Square: peak * peak / 2, Deviation: 2 * peak / math.Pi,
	}
}

// HalfWave is one half of a sine and nothing in the other half: one diode, no
// load but a resistor. Mean 0.318 of the peak: TC 9-62 para 4-11.
func HalfWave(peak float64) Wave {
	mean := 1 / math.Pi
	return Wave{
		Peak: peak, Above: peak * mean, Square: peak * peak / 4,
		Deviation: peak / math.Pi * lobe(mean),
	}
}

// FullWave is both halves of a sine the same way up: four diodes. Mean 0.637
// of the peak.
func FullWave(peak float64) Wave {
	mean := 2 / math.Pi
	return Wave{
		Peak: peak, Above: peak * mean, Square: peak * peak / 2,
		Deviation: 2 * peak / math.Pi * lobe(mean),
	}
}

// lobe is the integral of what half a sine has above a level, over the half.
func lobe(level float64) float64 {
	start := math.Asin(level)
	return 2*math.Cos(start) - level*(math.Pi-2*start)
}

// SquareWave swings between plus and minus the peak.
func SquareWave(peak float64) Wave {
	return Wave{Peak: peak, Above: peak / 2, Below: peak / 2, Square: peak * peak, Deviation: peak}
}

// Triangle swings on straight lines between plus and minus the peak.
func Triangle(peak float64) Wave {
	return Wave{Peak: peak, Above: peak / 4, Below: peak / 4, Square: peak * peak / 3, Deviation: peak / 2}
}

// Steady is direct current.
func Steady(volts float64) Wave {
	return Wave{Peak: math.Abs(volts), Above: math.Max(volts, 0), Below: math.Max(-volts, 0), Square: volts * volts}
}

// PhaseCut is a sine of which each half starts late, by an angle in degrees: a
// series regulator's thyristors.
func PhaseCut(peak, degrees float64) Wave {
	a := math.Min(math.Max(degrees, 0), 180) * math.Pi / 180
	half := peak * (1 + math.Cos(a)) / (2 * math.Pi)
	return Wave{
		Peak: peak, Above: half, Below: half, Deviation: 2 * half,
		Square: peak * peak * ((math.Pi-a)/2 + math.Sin(2*a)/4) / math.Pi,
	}
}

// Clamped is a sine cut off at a share (0 to 1) of its peak on both sides: a
// shunt regulator on the alternator's leads. Peak is the clamped peak.
func Clamped(peak, share float64) Wave {
	c := math.Min(math.Max(share, 0), 1)
	a := math.Asin(c)
	half := peak * (1 - math.Cos(a) + c*(math.Pi/2-a)) / math.Pi
	return Wave{
		Peak: c * peak, Above: half, Below: half, Deviation: 2 * half,
		Square: peak * peak * (a/2 - math.Sin(2*a)/4 + c*c*(math.Pi/2-a)) * 2 / math.Pi,
	}
}

// DC is what a DC range shows: the mean.
func (w Wave) DC() float64 { return w.Above - w.Below }

// RMS is the true effective value, direct part included.
func (w Wave) RMS() float64 { return math.Sqrt(w.Square) }

// ACTrueRMS is what a true-RMS meter shows on its AC range, which blocks the
// direct part.
func (w Wave) ACTrueRMS() float64 {
	return math.Sqrt(math.Max(0, w.Square-w.DC()*w.DC()))
}

// ACAverage is what a meter shows on its AC range that rectifies, averages and
// multiplies by 1.111, the direct part blocked: right for a sine only.
func (w Wave) ACAverage() float64 { return formSine * w.Deviation }

// ACDirect is the same without a blocking capacitor.
func (w Wave) ACDirect() float64 { return formSine * (w.Above + w.Below) }

// ACOneDiode is what the simplest AC range shows, one diode and no capacitor,
// red lead on the plus side: a battery reads more than double. Reversed leads
// show ACOneDiodeReversed; both alike means true AC.
func (w Wave) ACOneDiode() float64 { return 2 * formSine * w.Above }

// ACOneDiodeReversed is the same with the leads swapped.
func (w Wave) ACOneDiodeReversed() float64 { return 2 * formSine * w.Below }

// Crest is the peak over the RMS.
func (w Wave) Crest() float64 { return w.Peak / w.RMS() }

// SinePeak is the peak of a sine of that RMS: 1.414 of it, Army Ordnance
// subcourse OD1647.
func SinePeak(rms float64) float64 { return rms * math.Sqrt2 }

// SineRMS is the RMS of a sine of that peak: 0.707 of it, same source.
func SineRMS(peak float64) float64 { return peak / math.Sqrt2 }

// HalfWaveMean is what a DC range shows behind one diode fed with a sine of
// that RMS: 0.4502 of it (0.318 x 1.414). TC 9-62 para 4-11.
func HalfWaveMean(rms float64) float64 { return HalfWave(SinePeak(rms)).DC() }

// FullWaveMean is the same behind four diodes: 0.9003 of the RMS.
func FullWaveMean(rms float64) float64 { return FullWave(SinePeak(rms)).DC() }

// RippleVolts is the peak-to-peak ripple across a smoothing capacitor: amps
// over pulses a second and farads. Textbook, from memory. Pulses are the mains
// frequency behind one diode (TC 9-62 para 4-12), twice it behind four.
func RippleVolts(amps, pulses, farads float64) float64 {
	if !positive(pulses, farads) {
		return math.NaN()
	}
	return amps / (pulses * farads)
}
