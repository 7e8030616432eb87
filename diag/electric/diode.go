package electric

import "math"

// Constants of a 1 A silicon rectifier (1N4001 to 1N4007) in Shockley's
// equation, as a component maker's circuit model has them. Two other published
// sets disagree; this one agrees with meters' windows and with 0.93 V at 1 A.
const (
	diodeSaturation = 7.02767e-9
	diodeEmission   = 1.80803
	diodeSeries     = 0.0341512
)

// thermalVolts is kT/q at 27 °C, from the exact SI constants.
const thermalVolts = 1.380649e-23 * (27 + 273.15) / 1.602176634e-19

// DiodeVolts is the forward drop of a 1 A silicon rectifier: Shockley's
// equation at 27 °C, and 2 mV less for each °C warmer (textbook, from memory).
func DiodeVolts(amps, celsius float64) float64 {
	if !(amps >= 0) {
		return math.NaN()
	}
	v := diodeEmission*thermalVolts*math.Log1p(amps/diodeSaturation) + amps*diodeSeries
	return v - 0.002*(celsius-27)
}

// What a meter's diode test shows on a good silicon rectifier, in volts.
const (
	// DiodeLeast and DiodeMost forward: one meter's manual; over-range the
	// other way round.
	DiodeLeast = 0.5
	DiodeMost  = 0.8
	// DiodeLeastWide and DiodeMostWide: another meter's manual.
	DiodeLeastWide = 0.4
	DiodeMostWide  = 0.9
	// DiodeMostRated is the most drop at 1 A, 25 °C: 1N4001 to 1N4007 data
	// sheet (others print 1.0 V).
	DiodeMostRated = 1.1
)
