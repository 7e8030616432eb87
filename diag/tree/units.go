package tree

import (
	"benchlead/diag/formula"
	"benchlead/diag/measure"
)

// baseUnits are the units in which each function's readings are kept.
var baseUnits = map[measure.Function]string{
	measure.DCVolts: "V", measure.ACVolts: "V", measure.DiodeTest: "V",
	measure.Ohms: "ohm", measure.Continuity: "ohm",
	measure.DCAmps: "A", measure.ClampAmps: "A",
	measure.Speed: "rpm", measure.Seconds: "s", measure.Celsius: "degC",
}

func functions() []string {
	return []string{
		string(measure.DCVolts), string(measure.ACVolts), string(measure.Ohms), string(measure.Continuity),
		string(measure.DiodeTest), string(measure.DCAmps), string(measure.ClampAmps),
		string(measure.Speed), string(measure.Seconds), string(measure.Celsius),
	}
}

// leadless are the functions that no two points belong to.
func leadless(f measure.Function) bool {
	return f == measure.Speed || f == measure.Seconds || f == measure.Celsius
}

// unit is a display unit: its base unit, how many base units it holds, and what
// kind of quantity it is.
type unit struct {
	base string
	per  float64
	dim  formula.Dimension
}

var units = map[string]unit{
	"V": {"V", 1, formula.Volts}, "mV": {"V", 1e-3, formula.Volts}, "kV": {"V", 1e3, formula.Volts},
	"A": {"A", 1, formula.Amps}, "mA": {"A", 1e-3, formula.Amps}, "uA": {"A", 1e-6, formula.Amps},
	"ohm": {"ohm", 1, formula.Ohms}, "mohm": {"ohm", 1e-3, formula.Ohms}, "kohm": {"ohm", 1e3, formula.Ohms}, "Mohm": {"ohm", 1e6, formula.Ohms},
	"s": {"s", 1, formula.Seconds}, "ms": {"s", 1e-3, formula.Seconds},
	"Ah": {"Ah", 1, formula.AmpHours}, "W": {"W", 1, formula.Watts},
	"degC": {"degC", 1, formula.Kelvin}, "rpm": {"rpm", 1, formula.Plain},
	"%": {"%", 1, formula.Plain}, "": {"", 1, formula.Plain},
}

func unitNames() []string {
	return []string{"V", "mV", "kV", "A", "mA", "uA", "ohm", "mohm", "kohm", "Mohm", "s", "ms", "Ah", "W", "degC", "rpm", "%", "m"}
}
