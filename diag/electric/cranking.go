package electric

import "math"

// crankBand is one line of TM 5-3895-382-24 Table 29.
type crankBand struct {
	below       float64 // °C, top of the line
	least, most float64 // volts of a 12 V system while cranking
}

// crankBands: TM 5-3895-382-24 Table 29 prints -23 to -7, -7 to 10 and 10 to
// 27 °C; the outer lines also serve beyond those ends.
var crankBands = []crankBand{
	{-7, 6, 8},
	{10, 7, 9},
	{math.Inf(1), 8, 10},
}

func crankLine(celsius float64) crankBand {
	for _, b := range crankBands {
		if celsius < b.below {
			return b
		}
	}
	return crankBand{math.NaN(), math.NaN(), math.NaN()}
}

// CrankLeast is the lowest battery volts to expect while a 12 V system cranks
// at that temperature: 6 V in hard cold, 7 V near freezing, 8 V warm. TM
// 5-3895-382-24 Table 29.
func CrankLeast(celsius float64) float64 { return crankLine(celsius).least }

// CrankMost is the highest battery volts to expect there; above it the starter
// draws little. TM 5-3895-382-24 Table 29.
func CrankMost(celsius float64) float64 { return crankLine(celsius).most }

// CrankNormal is what a 12 V battery should stay above while cranking warm: the
// 70 °F row of TM 5-4210-230-14&P-1 Table 5, taken over to cranking.
const CrankNormal = 9.6

// CrankStop is how near to CrankLeast the battery's post may come while cables
// run hot before cranking must stop: TM 5-3895-382-24 p 339.
const CrankStop = 2.0

// Most cranking at a stretch, and the rest that must follow.
const (
	// GearStarterSeconds of a small engine's gear-drive starter, then
	// GearStarterRest: TM 5-4240-501-14&P p 178.
	GearStarterSeconds = 60
	GearStarterRest    = 15 * 60
	// StarterSeconds of a vehicle starter, then StarterRest: TM
	// 10-3930-671-24.
	StarterSeconds = 30
	StarterRest    = 120
)
