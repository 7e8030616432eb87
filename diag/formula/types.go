// Package formula is the small language of cuts and healthy values: expr
// expressions over the label, the bench and test ids, with the trade's tables
// as functions, units that are checked, and exact places for every error.
//
// A formula is evaluated only when every name in it is known: there is no zero
// for a missing reading. It can't loop, read a file or tell the time.
package formula

// Dimension is the kind of quantity an expression yields, as exponents of
// volt, ampere, second and kelvin. Plain numbers have all zero. Values are in
// base units, but a charge is in ampere-hours (see AmpHours).
type Dimension struct {
	Volt, Ampere, Second, Kelvin int
}

// Names is what a formula may mention, with each name's dimension. Words holds
// the names whose value is text (label.chemistry) and what it may be.
type Names struct {
	Numbers map[string]Dimension
	Words   map[string][]string
	// Fixed are names that always stand for the same number. A formula doesn't
	// need them when it is worked out.
	Fixed map[string]Constant
	// Elsewhere, if set, says of a name that exists why it can't stand here, as
	// the hint to a person who wrote it; "" of any other name.
	Elsewhere func(name string) string
}

// Constant is a number with a name, in base units.
type Constant struct {
	Value     float64
	Dimension Dimension
}

// Values is what is known when a formula is evaluated. A name that is absent
// is unknown.
type Values struct {
	Numbers map[string]float64
	Words   map[string]string
}
