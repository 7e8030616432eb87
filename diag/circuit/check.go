package circuit

import (
	"fmt"
	"math"
)

func (p EMF) name() string         { return p.Name }
func (p Resistor) name() string    { return p.Name }
func (p Wire) name() string        { return p.Name }
func (p Switch) name() string      { return p.Name }
func (p Fuse) name() string        { return p.Name }
func (p Relay) name() string       { return p.Name }
func (p Motor) name() string       { return p.Name }
func (p Diode) name() string       { return p.Name }
func (p Lamp) name() string        { return p.Name }
func (p Supply) name() string      { return p.Name }
func (p Winding) name() string     { return p.Name }
func (p Capacitor) name() string   { return p.Name }
func (p Electronics) name() string { return p.Name }

func (p EMF) ends() ends       { return two(p.Plus, p.Minus) }
func (p Resistor) ends() ends  { return two(p.From, p.To) }
func (p Wire) ends() ends      { return two(p.From, p.To) }
func (p Switch) ends() ends    { return two(p.From, p.To) }
func (p Fuse) ends() ends      { return two(p.From, p.To) }
func (p Motor) ends() ends     { return two(p.Plus, p.Minus) }
func (p Diode) ends() ends     { return two(p.Anode, p.Cathode) }
func (p Lamp) ends() ends      { return two(p.From, p.To) }
func (p Supply) ends() ends    { return two(p.Plus, p.Minus) }
func (p Winding) ends() ends   { return two(p.From, p.To) }
func (p Capacitor) ends() ends { return two(p.From, p.To) }

func (p Relay) ends() ends {
	return ends{node: [4]string{p.From, p.To, p.CoilFrom, p.CoilTo}, count: 4, ways: 4}
}

// Sense may be left out where no volts are watched.
func (p Electronics) ends() ends {
	e := two(p.From, p.To)
	if p.Sense != "" || p.LeastVolts > 0 {
		e.node[2], e.count = p.Sense, 3
	}
	return e
}

// ends are the nodes of a part: those that it joins, by twos, and after them
// what it only looks at.
type ends struct {
	node  [4]string
	count int // nodes
	ways  int // of these the first are joined: 0 to 1, and 2 to 3
}

func two(from, to string) ends { return ends{node: [4]string{from, to}, count: 2, ways: 2} }

// typeOf is which of the kinds of this package a part is.
func typeOf(p Part) partType {
	switch p.(type) {
	case EMF:
		return isEMF
	case Resistor:
		return isResistor
	case Wire:
		return isWire
	case Switch:
		return isSwitch
	case Fuse:
		return isFuse
	case Relay:
		return isRelayPart
	case Motor:
		return isMotor
	case Diode:
		return isDiode
	case Lamp:
		return isLamp
	case Supply:
		return isSupply
	case Winding:
		return isWindingPart
	case Capacitor:
		return isCapacitorPart
	case Electronics:
		return isElectronics
	}
	return unknown
}

type partType uint8

const (
	unknown partType = iota
	isEMF
	isResistor
	isWire
	isSwitch
	isFuse
	isRelayPart
	isMotor
	isDiode
	isLamp
	isSupply
	isWindingPart
	isCapacitorPart
	isElectronics
)

func (p EMF) check() string {
	return first(finite("Volts", p.Volts), resistance("Ohms", p.Ohms))
}

func (p Resistor) check() string { return resistance("Ohms", p.Ohms) }

func (p Wire) check() string {
	switch {
	case !(p.AWG >= -3 && p.AWG <= 50):
		return "AWG must be a gauge from -3 (4/0) to 50"
	case !(p.Celsius >= -80 && p.Celsius <= 400):
		return "Celsius must be a temperature that insulated copper can have"
	}
	return first(bounded("Metres", p.Metres), resistance("Extra", p.Extra))
}

func (p Switch) check() string {
	return first(resistance("Ohms", p.Ohms), resistance("Leak", p.Leak))
}

func (p Fuse) check() string {
	return first(positive("Rating", p.Rating), resistance("Ohms", p.Ohms))
}

func (p Relay) check() string {
	switch {
	case p.Welded && p.Stuck:
		return "a contact is either Welded or Stuck; choose one"
	case !(p.DropOut < p.PullIn):
		return "DropOut must be under PullIn"
	}
	return first(positive("PullIn", p.PullIn), bounded("DropOut", p.DropOut),
		resistance("CoilOhms", p.CoilOhms), resistance("Ohms", p.Ohms), resistance("Leak", p.Leak))
}

func (p Motor) check() string {
	if !(p.Ohms > 0) {
		return "Ohms must be above 0; an armature and its brushes have some"
	}
	return first(resistance("Ohms", p.Ohms), bounded("Ke", p.Ke), bounded("Brush", p.Brush),
		bounded("BrushAmps", p.BrushAmps), bounded("Drag", p.Drag), positive("Viscous", p.Viscous))
}

func (p Diode) check() string {
	return first(resistance("Ohms", p.Ohms), bounded("Saturation", p.Saturation), bounded("Ideality", p.Ideality))
}

func (p Lamp) check() string { return first(positive("Volts", p.Volts), positive("Watts", p.Watts)) }

func (p Supply) check() string {
	return first(bounded("Volts", p.Volts), resistance("Ohms", p.Ohms), bounded("Amps", p.Amps), bounded("Wakes", p.Wakes))
}

func (p Winding) check() string {
	return first(bounded("RMS", p.RMS), bounded("Hertz", p.Hertz), resistance("Ohms", p.Ohms), bounded("Henries", p.Henries))
}

func (p Capacitor) check() string {
	return first(bounded("Farads", p.Farads), resistance("Ohms", p.Ohms))
}

func (p Electronics) check() string {
	return first(resistance("Ohms", p.Ohms), bounded("MostAmps", p.MostAmps),
		bounded("LeastVolts", p.LeastVolts), resistance("Leak", p.Leak))
}

// first is the first complaint.
func first(whys ...string) string {
	for _, why := range whys {
		if why != "" {
			return why
		}
	}
	return ""
}

func finite(what string, v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Sprintf("%s is %v; give a number", what, v)
	}
	return ""
}

// resistance may be infinite, which is open.
func resistance(what string, v float64) string {
	if !(v >= 0) {
		return fmt.Sprintf("%s is %v; give ohms, 0 or more", what, v)
	}
	return ""
}

func bounded(what string, v float64) string {
	if !(v >= 0) || math.IsInf(v, 0) {
		return fmt.Sprintf("%s is %v; give a number, 0 or more", what, v)
	}
	return ""
}

func positive(what string, v float64) string {
	if !(v > 0) || math.IsInf(v, 0) {
		return fmt.Sprintf("%s is %v; give a number above 0", what, v)
	}
	return ""
}
