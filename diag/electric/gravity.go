package electric

// gravityCharge is specific gravity at 80 °F by state of charge, and
// gravityFreeze the °F at which that electrolyte freezes: TM 5-4210-230-14&P-1
// Table 2, p 458. (A BCI sheet prints lower freezing points for the discharged
// rows, which don't agree with each other; the Army table is kept.)
var (
	gravityCharge = table{{1.120, 0}, {1.155, 0.25}, {1.190, 0.5}, {1.225, 0.75}, {1.265, 1}}
	gravityFreeze = table{{1.120, 15}, {1.155, 5}, {1.190, -15}, {1.225, -35}, {1.265, -75}}
)

// GravityAt80F corrects a hydrometer reading to 80 °F (26.7 °C): 0.004 added
// for each 10 °F above, taken off below. TM 5-4210-230-14&P-1 p 457.
func GravityAt80F(reading, celsius float64) float64 {
	return reading + 0.0004*(fahrenheit(celsius)-80)
}

// GravityShown is the hydrometer reading to expect of a known gravity at 80
// °F: the same rule backwards, as TM 5-1185 Table IV tabulates it.
func GravityShown(at80F, celsius float64) float64 {
	return at80F - 0.0004*(fahrenheit(celsius)-80)
}

// GravityAt25C corrects a reading to 25 °C with 0.007 for each 10 °C, as a
// maker's manual for standby batteries has it.
func GravityAt25C(reading, celsius float64) float64 {
	return reading + 0.0007*(celsius-25)
}

// GravityCharge is the state of charge (0 to 1) that a corrected specific
// gravity means: TM 5-4210-230-14&P-1 Table 2, p 458 (full at 1.265). Older
// manuals call 1.280 full (TM 5-1185 Table II); it counts as full here too.
func GravityCharge(gravity float64) float64 { return gravityCharge.at(gravity) }

// GravityRest is the rest volts that a specific gravity gives: 0.84 V more
// than the gravity in each cell, a rule of a battery tutorial; it is 0.10 V
// low for an empty 12 V battery.
func GravityRest(gravity, cells float64) float64 { return cells * (gravity + 0.84) }

// GravityFreezes is the temperature, °C, at which electrolyte of that gravity
// freezes: TM 5-4210-230-14&P-1 Table 2, p 458.
func GravityFreezes(gravity float64) float64 { return celsiusOf(gravityFreeze.at(gravity)) }

// LeadFreezes is the temperature, °C, at which a battery at a state of charge
// (0 to 1) freezes: both columns of TM 5-4210-230-14&P-1 Table 2, p 458. A
// frozen battery is thawed before it is charged (Army subcourse OD1002 p 54).
func LeadFreezes(soc float64) float64 {
	return GravityFreezes(gravityCharge.turned().at(soc))
}

// Spreads between the cells of a full battery, specific gravity at 80 °F.
const (
	// GravitySpread beyond it the battery is unserviceable: TM 9-6140-200-14
	// para 4-7.
	GravitySpread = 0.025
	// GravitySpreadReplace, after another charge: TM 5-3740-214-14.
	GravitySpreadReplace = 0.050
	// GravityReplace: any one cell under it, replace: TM 5-3740-214-14.
	GravityReplace = 1.150
)
