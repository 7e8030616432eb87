package electric

import "math"

// How a plain transformer charger makes its direct current.
const (
	ChargerHalfWave = "half-wave" // one diode
	ChargerFullWave = "full-wave" // four diodes, or two and a centre tap
	ChargerFiltered = "filtered"  // four diodes and a capacitor
)

// ChargerKinds lists what the Charger functions accept.
func ChargerKinds() []string {
	return []string{ChargerHalfWave, ChargerFullWave, ChargerFiltered}
}

// ChargerSecondary is the transformer's open-circuit AC RMS for the volts on a
// charger's label: 16.4 V unfiltered and 11.5 V filtered for a "12 V" charger,
// in proportion for others. Typical values, common practice, no source.
func ChargerSecondary(labelVolts float64, kind string) float64 {
	if !positive(labelVolts) {
		return math.NaN()
	}
	switch kind {
	case ChargerHalfWave, ChargerFullWave:
		return labelVolts * 16.4 / 12
	case ChargerFiltered:
		return labelVolts * 11.5 / 12
	}
	return math.NaN()
}

// ChargerOpen is the DC volts that a healthy plain charger shows with nothing
// but the meter on it: the mean of the wave (TC 9-62 para 4-11), or nearly the
// peak behind a capacitor. A healthy half-wave "12 V" charger shows about 7.4
// V. Label to secondary is common practice, no source: expect ±20 %.
func ChargerOpen(labelVolts float64, kind string) float64 {
	rms := ChargerSecondary(labelVolts, kind)
	switch kind {
	case ChargerHalfWave:
		return HalfWaveMean(rms)
	case ChargerFullWave:
		return FullWaveMean(rms) - 2*chargerDrop
	case ChargerFiltered:
		return SinePeak(rms) - 2*chargerDropLoaded
	}
	return math.NaN()
}

// A rectifier diode's drop at a meter's microamperes and at a bleed resistor's
// milliamperes: DiodeVolts at 1 uA and a few mA peaks.
const (
	chargerDrop       = 0.25
	chargerDropLoaded = 0.65
)

// ChargerOpenAC is the AC volts that a coupled AC range shows at the same
// place: a healthy unfiltered charger shows several, a filtered one none.
// trueRMS says which kind of meter.
func ChargerOpenAC(labelVolts float64, kind string, trueRMS bool) float64 {
	peak := SinePeak(ChargerSecondary(labelVolts, kind))
	var w Wave
	switch {
	case math.IsNaN(peak):
		return peak
	case kind == ChargerHalfWave:
		w = HalfWave(peak)
	case kind == ChargerFullWave:
		w = FullWave(peak)
	}
	if trueRMS {
		return w.ACTrueRMS()
	}
	return w.ACAverage()
}

// TestLoadOhms is the resistor that draws a charger's label amps at its label
// volts: a lamp is wrong, its cold filament pulls a small charger down. Common
// practice, no source.
func TestLoadOhms(labelVolts, labelAmps float64) float64 {
	if !positive(labelVolts, labelAmps) {
		return math.NaN()
	}
	return labelVolts / labelAmps
}

// TestLoadWatts is the heat in that resistor; one rated for twice as much
// stays touchable for a minute (common practice, no source).
func TestLoadWatts(labelVolts, labelAmps float64) float64 { return labelVolts * labelAmps }
