package tree

import (
	"slices"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
)

// unit is a display unit: its base unit, how many base units it holds, and what
// kind of quantity it is.
type unit struct {
	base string
	per  float64
	dim  formula.Dimension
}

// unitOf looks a unit up by its name. A few that no meter reads, such as the
// metres of a cable, only formulas know.
func unitOf(name string) (unit, bool) {
	base, per, ok := measure.UnitFactor(name)
	if !ok {
		base, per = name, 1
	}
	dim, known := formula.DimensionOf(base)
	return unit{base: base, per: per, dim: dim}, known
}

// unitNames are the units that hints offer.
var unitNames = []string{"V", "mV", "A", "mA", "ohm", "mohm", "kohm", "Mohm", "s", "min", "Ah", "W", "degC", "rpm", "%", "m", "Hz"}

func functions() []string {
	var out []string
	for _, f := range measure.Functions() {
		out = append(out, string(f))
	}
	return out
}

// leadless are the functions that no two points belong to.
func leadless(f measure.Function) bool {
	return slices.Contains([]measure.Function{measure.Speed, measure.Seconds, measure.Celsius}, f)
}

// redJack is the make-safe item that says which jack of the meter the red lead
// is in; readings in amps need it, so that it is asked back afterwards.
const redJack = "meter-lead"
