package electric

import "math"

// LeadFloat is the float volts of a lead-acid battery: 13.4 V flooded, 13.6 V
// AGM for six cells at 25 °C, less 5 mV a cell for each °C warmer. As a public
// encyclopedia article on float voltage gives them.
func LeadFloat(celsius, cells float64, chemistry string) float64 {
	if !positive(cells) {
		return math.NaN()
	}
	var at25 float64
	switch chemistry {
	case Flooded:
		at25 = 13.4 / 6
	case AGM:
		at25 = 13.6 / 6
	default:
		return math.NaN()
	}
	return cells * (at25 - 0.005*(celsius-25))
}

// Volts at the battery with the engine at speed, for a 12 V system.
const (
	// ChargingLeast and ChargingMost, engine running: TM 5-3805-254-20-1 p 281.
	ChargingLeast = 13.0
	ChargingMost  = 15.5
	// RegulatedMost of an alternator under test: TM 10-3930-671-24 p F-285.
	RegulatedMost = 15.0
)

// SlowChargeAmps is the slow-charge rate from the plates of one cell: 1 A for
// each positive plate, of which an odd total has one fewer than negatives.
// TM 5-4210-230-14&P-1 p 465.
func SlowChargeAmps(platesPerCell float64) float64 {
	if !positive(platesPerCell) {
		return math.NaN()
	}
	return math.Floor(platesPerCell / 2)
}

// AhDelivered is what amps give in hours: TM 5-4210-230-14&P-1 p 463.
func AhDelivered(amps, hours float64) float64 { return amps * hours }

// PeukertHours is how long a battery lasts at amps, with its ampere-hours at
// the hours-rate and Peukert's exponent (1.2 to 1.3 flooded, 1.05 to 1.15 AGM
// in a published table): t = H (C/(I H))^k.
func PeukertHours(ah, rateHours, amps, k float64) float64 {
	if !positive(ah, rateHours, amps, k) {
		return math.NaN()
	}
	return rateHours * math.Pow(ah/(amps*rateHours), k)
}

// PeukertAh is the ampere-hours that can be had at amps.
func PeukertAh(ah, rateHours, amps, k float64) float64 {
	return amps * PeukertHours(ah, rateHours, amps, k)
}

// HydrogenFloat is the hydrogen, cubic feet a minute, from cells on float:
// 0.000013 for each ampere-hour and cell, a battery maker's appendix on
// ventilation.
func HydrogenFloat(ah, cells float64) float64 { return 0.000013 * ah * cells }

// HydrogenOvercharge is the hydrogen, cubic feet a minute, from cells on
// overcharge: 0.000269 for each ampere and cell (IEEE 484, as quoted).
func HydrogenOvercharge(amps, cells float64) float64 { return 0.000269 * amps * cells }

// Hydrogen in air, share by volume.
const (
	// HydrogenExplodes from here: NFPA; OSHA's letter of 26 Jan 1976 uses 0.041.
	HydrogenExplodes = 0.04
	// HydrogenAlarm is a quarter of it, the usual design level.
	HydrogenAlarm = HydrogenExplodes / 4
)
