package electric

import "math"

// The kinds of lithium cell a pack may be made of.
const (
	LithiumIon    = "lithium-ion"    // 3.6 or 3.7 V on the label
	IronPhosphate = "iron-phosphate" // 3.2 V on the label
)

// LithiumChemistries lists what the Lithium functions accept.
func LithiumChemistries() []string { return []string{LithiumIon, IronPhosphate} }

// cell is one lithium cell's limits, in volts.
type cell struct {
	nominal, full, spread, empty, precharge, unsafe float64
	rest                                            table
}

var cells = map[string]cell{
	LithiumIon: {
		nominal:   3.7,   // cell tables; 3.6 is printed too
		full:      4.20,  // data sheet of a 4.2 V linear charger circuit
		spread:    0.042, // ±1 %, same data sheet
		empty:     3.0,   // cell tables
		precharge: 2.9,   // same data sheet: trickle below it, fast charge above
		unsafe:    2.0,   // floor in a note on deep discharge; that charging is then barred: from memory
		rest:      restLithiumIon,
	},
	IronPhosphate: {
		nominal:   3.2,  // iron-phosphate charts
		full:      3.65, // same
		spread:    0.05, // 4 cells 14.6 ±0.2 V, same
		empty:     2.5,  // same: 10.0 V for 4 cells
		precharge: 2.5,  // from memory
		unsafe:    2.0,  // "absolute low" of the same charts
		rest:      restIronPhosphate,
	},
}

// restLithiumIon is rest volts of one 18650 cell (LiCoO2, 20 °C) by charge: the
// example table in a public kernel driver's device-tree documentation.
var restLithiumIon = table{
	{0, 3.000},
	{0.05, 3.610},
	{0.10, 3.690},
	{0.15, 3.710},
	{0.20, 3.730},
	{0.25, 3.750},
	{0.30, 3.770},
	{0.35, 3.790},
	{0.40, 3.800},
	{0.45, 3.820},
	{0.50, 3.840},
	{0.55, 3.850},
	{0.60, 3.870},
	{0.65, 3.910},
	{0.70, 3.950},
	{0.75, 3.980},
	{0.80, 4.020},
	{0.85, 4.080},
	{0.90, 4.110},
	{0.95, 4.150},
	{1, 4.200},
}

// restIronPhosphate is a web chart (±15 %), weak: good for "nearly full" and
// "nearly empty" only.
var restIronPhosphate = table{
	{0, 2.85}, {0.10, 3.00}, {0.275, 3.10}, {0.50, 3.20}, {0.775, 3.30}, {0.875, 3.35}, {0.95, 3.40}, {1, 3.65},
}

// Between these volts a cell an iron-phosphate pack may be anywhere from a
// fifth to four fifths charged: two published charts contradict each other
// there.
const (
	PlateauFrom = 3.20
	PlateauTo   = 3.34
)

func pack(count float64, chemistry string, volts func(cell) float64) float64 {
	c, ok := cells[chemistry]
	if !ok || !positive(count) {
		return math.NaN()
	}
	return count * volts(c)
}

// LithiumNominal is the volts on the label: 3.7 V a lithium-ion cell, 3.2 V an
// iron-phosphate cell. Source: published cell tables.
func LithiumNominal(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.nominal })
}

// LithiumFull is the volts of a fully charged pack and the limit of its
// charger: 4.20 V a lithium-ion cell (charger circuit data sheet), 3.65 V an
// iron-phosphate cell (charts).
func LithiumFull(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.full })
}

// LithiumFullLeast is the low end of a right charger's volts: 1 % under full
// (same data sheet); 0.05 V a cell under for iron-phosphate.
func LithiumFullLeast(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.full - c.spread })
}

// LithiumFullMost is the high end; above it the pack is overcharged.
func LithiumFullMost(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.full + c.spread })
}

// LithiumEmpty is the discharge cut-off: 3.0 V a lithium-ion cell, 2.5 V an
// iron-phosphate cell. Source: published cell tables.
func LithiumEmpty(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.empty })
}

// LithiumPrecharge is the volts below which a right charger only trickles: 2.9
// V a lithium-ion cell (charger circuit data sheet; others 2.5 to 3.0 V), 2.5
// V an iron-phosphate cell (from memory).
func LithiumPrecharge(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.precharge })
}

// LithiumUnsafe is the volts, at the cells, below which a pack is not charged
// again but put aside: 2.0 V a cell. The floor is in a note on deep discharge;
// barring the charge is cell makers' practice, from memory. At a pack's
// contacts near 0 V proves nothing: a protection that has tripped shows it too
// (data sheet of a one-cell protection circuit).
func LithiumUnsafe(cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.unsafe })
}

// LithiumRefused is the volts below which many chargers refuse a lithium-ion
// pack: 2.5 V a cell, a published note on protection circuits.
func LithiumRefused(cells float64) float64 { return 2.5 * cells }

// LithiumRest is the rest volts of a pack at a state of charge (0 to 1). The
// lithium-ion table is a kernel driver's published example at 20 °C; the
// iron-phosphate one a web chart good to ±15 %.
func LithiumRest(soc, cells float64, chemistry string) float64 {
	return pack(cells, chemistry, func(c cell) float64 { return c.rest.at(soc) })
}

// LithiumCharge is the state of charge (0 to 1) that rest volts mean: the same
// tables read backwards. NaN on the plateau of iron-phosphate (PlateauFrom to
// PlateauTo a cell), where rest volts can't tell.
func LithiumCharge(volts, count float64, chemistry string) float64 {
	c, ok := cells[chemistry]
	if !ok || !positive(count) {
		return math.NaN()
	}
	each := volts / count
	if chemistry == IronPhosphate && each >= PlateauFrom && each <= PlateauTo {
		return math.NaN()
	}
	return c.rest.turned().at(each)
}

// Temperatures between which a lithium pack may be charged.
const (
	// LithiumColdest: default of a battery monitor circuit's data sheet.
	LithiumColdest = 0.0
	// LithiumHottest: default of its sister's data sheet.
	LithiumHottest = 55.0
)
