package formula

import "strings"

// The dimensions of the trade. Values are in base units: V, A, ohm, s, degC.
// A charge is the exception: its value is in ampere-hours, as every label
// writes it, and never in ampere-seconds.
var (
	Plain    = Dimension{}
	Volts    = Dimension{Volt: 1}
	Amps     = Dimension{Ampere: 1}
	Ohms     = Dimension{Volt: 1, Ampere: -1}
	Watts    = Dimension{Volt: 1, Ampere: 1}
	Seconds  = Dimension{Second: 1}
	AmpHours = Dimension{Ampere: 1, Second: 1}
	Kelvin   = Dimension{Kelvin: 1} // of a temperature in degC
)

var dimensions = map[string]Dimension{
	"V": Volts, "A": Amps, "ohm": Ohms, "W": Watts, "s": Seconds, "Ah": AmpHours, "degC": Kelvin,
	"": Plain, "%": Plain, "rpm": Plain, "Hz": Plain, "m": Plain,
}

// DimensionOf is the dimension of a base unit: V, A, ohm, W, s, Ah, degC, and
// the plain numbers rpm, Hz, m, % and "" (a count). Units with a prefix (mV,
// kohm) are not base units.
func DimensionOf(baseUnit string) (Dimension, bool) {
	d, ok := dimensions[baseUnit]
	return d, ok
}

var dimensionNames = map[Dimension]string{
	Plain: "a plain number", Volts: "volts", Amps: "amps", Ohms: "ohms", Watts: "volts x amps",
	Seconds: "seconds", AmpHours: "amp-hours", Kelvin: "degrees Celsius",
}

// String is the dimension in words: "volts", "ohms", "a plain number", "volts x
// amps", "amps per volt".
func (d Dimension) String() string {
	if name, ok := dimensionNames[d]; ok {
		return name
	}
	var over, under []string
	for _, q := range []struct {
		power    int
		many, of string
	}{
		{d.Volt, "volts", "volt"},
		{d.Ampere, "amps", "amp"},
		{d.Second, "seconds", "second"},
		{d.Kelvin, "degrees", "degree"},
	} {
		for range max(q.power, 0) {
			over = append(over, q.many)
		}
		for range max(-q.power, 0) {
			under = append(under, q.of)
		}
	}
	if len(over) == 0 {
		over = []string{"1"}
	}
	return strings.Join(append([]string{strings.Join(over, " x ")}, under...), " per ")
}

// wanted says that a result should have this dimension.
func (d Dimension) wanted() string {
	if d == Plain {
		return d.String() + " is wanted"
	}
	return d.String() + " are wanted"
}

func (d Dimension) times(e Dimension) Dimension {
	return Dimension{d.Volt + e.Volt, d.Ampere + e.Ampere, d.Second + e.Second, d.Kelvin + e.Kelvin}
}

func (d Dimension) over(e Dimension) Dimension {
	return Dimension{d.Volt - e.Volt, d.Ampere - e.Ampere, d.Second - e.Second, d.Kelvin - e.Kelvin}
}
