package electric

import "math"

// Floors of the 15 s load test by °F, for 12 V and for 6 V batteries: TM
// 5-4210-230-14&P-1 Table 5, p 463. The last row is printed "70 and up".
var (
	floor12 = table{{0, 8.5}, {10, 8.7}, {20, 8.9}, {30, 9.1}, {40, 9.3}, {50, 9.4}, {60, 9.5}, {70, 9.6}}
	floor6  = table{{0, 4.2}, {10, 4.3}, {20, 4.4}, {30, 4.5}, {40, 4.6}, {50, 4.7}, {60, 4.75}, {70, 4.8}}
)

// crankPower is the share of cranking power by °F: TM 5-4210-230-14&P-1 Table
// 3 (TM 5-1185 prints 65 % at 30 °F).
var crankPower = table{{-20, 0.20}, {0, 0.40}, {32, 0.65}, {80, 1}}

// LoadFloor is the least volts after 15 s of LoadAmps at a battery
// temperature: TM 5-4210-230-14&P-1 Table 5, p 463. Three cells use the
// table's own 6 V column; other counts scale the 12 V column. Beyond the ends
// of the table the end values hold.
func LoadFloor(celsius, cells float64) float64 {
	if !positive(cells) {
		return math.NaN()
	}
	if cells == 3 {
		return floor6.at(fahrenheit(celsius))
	}
	return floor12.at(fahrenheit(celsius)) * cells / 6
}

// LoadFloorAh is the least volts of the older test at three times the
// ampere-hours for 15 s: 9 V of a 12 V battery, 4.5 V of a 6 V one. TM
// 5-3805-260-24 p 146.
func LoadFloorAh(cells float64) float64 {
	if !positive(cells) {
		return math.NaN()
	}
	return 1.5 * cells
}

// LoadAmps is the load of the 15 s test: half the cold cranking amps (BCI
// practice, from memory), or three times the ampere-hours at the 20 h rate
// when the label gives no cranking amps (0): TM 5-3805-260-24 p 146.
func LoadAmps(cca, ah float64) float64 {
	switch {
	case positive(cca):
		return cca / 2
	case positive(ah):
		return 3 * ah
	}
	return math.NaN()
}

// LoadCharge is the least state of charge at which a load test says anything
// about the battery: TM 5-3805-262-20 p 5-142 sends the fuller ones on as
// "probably good" at 12.4 V. Testing an emptier one condemns good batteries;
// that side is common practice, no source.
const LoadCharge = 0.75

// LoadSeconds is how long the load stays on: TM 5-4210-230-14&P-1 Table 5.
const LoadSeconds = 15

// CrankPower is the share of its warm cranking power that a full battery has
// left: 1 at 27 °C, 0.65 at freezing, 0.40 at -18 °C. TM 5-4210-230-14&P-1
// Table 3.
func CrankPower(celsius float64) float64 { return crankPower.at(fahrenheit(celsius)) }

// LeadOhms is the internal resistance of a 12 V battery. It follows from the
// cold cranking rating: that current at -18 °C leaves 7.2 V of a full battery
// (SAE J537), so 5.4 V are lost inside. Warmth takes off a third from -18 to
// 30 °C (a published article, read as a smooth curve); the rise with discharge
// is a model of ours, no source: some 40 % at half, far more near empty.
func LeadOhms(cca, soc, celsius float64) float64 {
	if !positive(cca) || math.IsNaN(soc) {
		return math.NaN()
	}
	const perKelvin = 0.0084473 // ln(1.5)/48
	cold := 5.4 / cca           // at -18 °C, full
	return cold * math.Exp(-perKelvin*(celsius+18)) * discharged(share(soc)) / discharged(1)
}

func discharged(soc float64) float64 { return 1 + 0.4*(1-soc) + 0.10/(soc+0.01) }

// LeadLoaded is the volts a sound 12 V battery keeps under amps: rest volts
// less what LeadOhms takes. It has no sag over time, so it is a yardstick for
// "healthy", not a limit. Model, no source.
func LeadLoaded(amps, cca, soc, celsius float64, chemistry string) float64 {
	return LeadRest(soc, celsius, chemistry) - amps*LeadOhms(cca, soc, celsius)
}

// LeadOhmsMeasured is internal resistance from two readings at the posts and
// the amps drawn at the second.
func LeadOhmsMeasured(rest, loaded, amps float64) float64 {
	if !positive(amps) {
		return math.NaN()
	}
	return (rest - loaded) / amps
}
