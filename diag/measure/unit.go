package measure

import "math"

// unit is one name of a unit: so many base units, as a power of ten and a
// plain factor.
type unit struct {
	base  string
	power int     // of ten
	times float64 // 0 means 1
}

func (u unit) factor() float64 {
	f := math.Pow10(u.power)
	if u.times != 0 {
		f *= u.times
	}
	return f
}

// units are the names that trees, case files and screens write.
var units = map[string]unit{
	"":  {base: ""},
	"%": {base: "", power: -2},
	"V": {base: "V"}, "mV": {base: "V", power: -3}, "uV": {base: "V", power: -6}, "kV": {base: "V", power: 3},
	"ohm": {base: "ohm"}, "mohm": {base: "ohm", power: -3}, "kohm": {base: "ohm", power: 3}, "Mohm": {base: "ohm", power: 6},
	"A": {base: "A"}, "mA": {base: "A", power: -3}, "uA": {base: "A", power: -6},
	"rpm": {base: "rpm"},
	"s":   {base: "s"}, "ms": {base: "s", power: -3}, "min": {base: "s", times: 60}, "h": {base: "s", times: 3600},
	"degC": {base: "degC"},
	"Ah":   {base: "Ah"}, "mAh": {base: "Ah", power: -3},
	"W": {base: "W"},
}

// UnitFactor finds a unit by its name as trees write it: its base unit, and
// how many base units it is (mV: "V", 0.001). The empty name is a plain number
// and "%" a hundredth of one.
func UnitFactor(name string) (base string, factor float64, ok bool) {
	u, ok := units[name]
	if !ok {
		return "", 0, false
	}
	return u.base, u.factor(), true
}

// setting is what a function implies for its readings.
type setting struct {
	units   []string // that fit, base first
	current string   // "ac" or "dc", if the function has one
}

var settings = map[Function]setting{
	DCVolts:    {[]string{"V", "mV", "uV", "kV"}, "dc"},
	ACVolts:    {[]string{"V", "mV", "uV", "kV"}, "ac"},
	DiodeTest:  {[]string{"V", "mV"}, "dc"},
	Ohms:       {[]string{"ohm", "mohm", "kohm", "Mohm"}, ""},
	Continuity: {[]string{"ohm", "mohm", "kohm", "Mohm"}, ""},
	DCAmps:     {[]string{"A", "mA", "uA"}, "dc"},
	ClampAmps:  {[]string{"A", "mA"}, "dc"},
	Speed:      {[]string{"rpm"}, ""},
	Seconds:    {[]string{"s", "ms", "min", "h"}, ""},
	Celsius:    {[]string{"degC"}, ""},
}

// Functions lists every function, in a fixed order.
func Functions() []Function {
	return []Function{DCVolts, ACVolts, Ohms, Continuity, DiodeTest, DCAmps, ClampAmps, Speed, Seconds, Celsius}
}

// Known reports whether f is one of Functions.
func (f Function) Known() bool { _, ok := settings[f]; return ok }

// Base is the unit in which readings of this function are kept: V, ohm, A,
// rpm, s or degC; empty for an unknown function.
func (f Function) Base() string {
	if s, ok := settings[f]; ok {
		return s.units[0]
	}
	return ""
}

// Units lists the units that fit a function, base first, as UnitFactor knows
// them.
func Units(f Function) []string {
	return append([]string(nil), settings[f].units...)
}

// Passive says whether the meter sends a current of its own through what it reads:
// that must never be done while current can flow there.
func (f Function) Passive() bool {
	return f == Ohms || f == Continuity || f == DiodeTest
}
