package electric

import "math"

// StatorHertz is the frequency of a flywheel alternator: poles x rpm / 120.
// Textbook, from memory.
func StatorHertz(poles, rpm float64) float64 { return poles * rpm / 120 }

// StatorVolts is the open-circuit volts at a speed, from those at another
// speed: they go in proportion. Dorrell, IECON 2007, equation 1.
func StatorVolts(rpm, knownVolts, knownRPM float64) float64 {
	if !positive(knownRPM) {
		return math.NaN()
	}
	return knownVolts * rpm / knownRPM
}

// Least open-circuit AC volts at 3600 rpm, stator unplugged. Common practice
// from memory, no source: the engine's own data come first.
const (
	StatorLarge = 28.0 // regulated, 15 to 25 A
	StatorSmall = 20.0 // 3 to 10 A
)

// StatorLeast is the least open-circuit AC volts of a flywheel alternator
// rated for amps of charge, at a speed: StatorSmall up to 10 A, StatorLarge
// above, in proportion to the speed. Common practice from memory, no source.
func StatorLeast(rpm, amps float64) float64 {
	if !positive(amps) {
		return math.NaN()
	}
	if amps <= 10 {
		return StatorVolts(rpm, StatorSmall, 3600)
	}
	return StatorVolts(rpm, StatorLarge, 3600)
}

// HalfWaveDC is what a DC range shows behind the one diode of an unregulated
// charging coil, battery off, with a resistor of 1 to 10 kohm across the
// probes (unloaded, stray capacitance lifts it): 0.4502 of the coil's AC RMS.
// The factor follows from TC 9-62 para 4-11; that coils are tested so is
// common practice, no source.
func HalfWaveDC(statorRMS float64) float64 { return HalfWaveMean(statorRMS) }

// halfWave is the least DC volts behind the one diode of an unregulated coil,
// charging lead off, by engine speed: a public small-engine service text on
// flywheel alternators (9.0, 11.0, 14.0 V at 2500, 3000, 3600 rpm).
var halfWave = table{{2500, 9}, {3000, 11}, {3600, 14}}

// HalfWaveLeast is that figure at a speed. Beyond the ends of the table it goes
// in proportion to the speed, as the volts of the coil do.
func HalfWaveLeast(rpm float64) float64 {
	at := min(max(rpm, halfWave[0].x), halfWave[len(halfWave)-1].x)
	return halfWave.at(at) * rpm / at
}
