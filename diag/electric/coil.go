package electric

import "math"

// CoilOhms is a coil's resistance from volts across it and amps through it.
func CoilOhms(volts, amps float64) float64 {
	if !positive(amps) {
		return math.NaN()
	}
	return volts / amps
}

// CoilAmps is what a coil draws.
func CoilAmps(volts, ohms float64) float64 {
	if !positive(ohms) {
		return math.NaN()
	}
	return volts / ohms
}

// CoilWatts is the heat in a coil.
func CoilWatts(volts, ohms float64) float64 { return volts * CoilAmps(volts, ohms) }

// PullInOhms is the pull-in winding of a two-winding solenoid from the amps of
// both windings together and of the hold-in winding alone. TM
// 5-2420-230-24-2 p 13-33; take the first reading, windings heat fast.
func PullInOhms(volts, bothAmps, holdAmps float64) float64 {
	return CoilOhms(volts, bothAmps-holdAmps)
}

// HoldInOhms is its hold-in winding: same source.
func HoldInOhms(volts, holdAmps float64) float64 { return CoilOhms(volts, holdAmps) }
