package electric

import "math"

const (
	// copperAlpha is the temperature coefficient of annealed copper per °C,
	// referred to 20 °C: NBS Handbook 100.
	copperAlpha = 0.00393
	// copperRho is the resistivity at 20 °C, ohm metres: 100 % IACS, NBS
	// Handbook 100, from memory; 1.724e-8 is printed in wire tables.
	copperRho = 1.7241e-8
)

// CopperOhms is what a copper winding or wire of r20 ohms at 20 °C has at
// another temperature: 0.00393 per °C, NBS Handbook 100.
func CopperOhms(r20, celsius float64) float64 {
	return r20 * (1 + copperAlpha*(celsius-20))
}

// Copper20 brings ohms measured at a temperature back to 20 °C.
func Copper20(ohms, celsius float64) float64 {
	return ohms / (1 + copperAlpha*(celsius-20))
}

// CopperFrom carries ohms from one temperature to another with a coefficient
// that is referred to the first, as textbook problems do.
func CopperFrom(ohms, from, to, alpha float64) float64 {
	return ohms * (1 + alpha*(to-from))
}

// WireMillimetres is the diameter of a gauge: 0.127 mm x 92^((36-n)/39), ASTM
// B258. Gauges 1/0 to 4/0 are 0, -1, -2, -3.
func WireMillimetres(awg float64) float64 {
	return 0.127 * math.Pow(92, (36-awg)/39)
}

// WireArea is the cross-section of a gauge, mm²: from its diameter, ASTM B258.
func WireArea(awg float64) float64 {
	d := WireMillimetres(awg)
	return math.Pi / 4 * d * d
}

// WireOhms is the resistance of a solid copper wire of a gauge: ASTM B258 and
// NBS Handbook 100. Stranded wire has a few percent more, by its lay.
func WireOhms(awg, metres, celsius float64) float64 {
	return CableOhms(WireArea(awg), metres, celsius)
}

// CableOhms is the resistance of copper of a cross-section in mm²: NBS
// Handbook 100.
func CableOhms(squareMillimetres, metres, celsius float64) float64 {
	if !positive(squareMillimetres) || metres < 0 {
		return math.NaN()
	}
	return CopperOhms(copperRho*metres/(squareMillimetres*1e-6), celsius)
}

// CableMilliohms is CableOhms in milliohms, for battery cables.
func CableMilliohms(squareMillimetres, metres, celsius float64) float64 {
	return 1000 * CableOhms(squareMillimetres, metres, celsius)
}
