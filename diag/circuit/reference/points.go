package reference

import "benchlead/diag/circuit"

// Point is a circuit at rest.
type Point struct {
	Name   string
	Says   string
	Ground string
	Parts  []circuit.Part
	Amps   []string // parts whose currents matter
}

// ohmSource is the meter's source for ohms, diodeSource for the diode test: volts
// behind a resistance, 0.2 ohm of leads. Published meter data: about 3 V open,
// 1 to 1.5 mA into a short.
const (
	sourceVolts = 2.8
	ohmSource   = 2200
	diodeSource = 2800
	leads       = 0.2
)

// Points are operating points of the key-start machine: cranking well and badly,
// a floating node under a meter, and an ohmmeter and diode test with the battery
// lifted.
func Points() []Point {
	points := []Point{
		{Name: "crank", Says: "cranking, healthy", Ground: Ground, Parts: KeyStart(Start).Parts()},
		{Name: "crank-ground", Says: "cranking, ground cable 50 milliohm up", Ground: Ground, Parts: crank(func(m *Machine) { m.CableMinus += 0.05 })},
		{Name: "crank-seized", Says: "key in start, engine seized", Ground: Ground, Parts: crank(func(m *Machine) { m.Motor.Locked = true })},
		ghost(),
		{Name: "crank-shorted-diode", Says: "cranking, charging diode shorted", Ground: Ground, Parts: crank(func(m *Machine) { m.Shorted = true })},
		{Name: "crank-dragging", Says: "cranking, starter drags 0.8 N m, solenoid contact 20 milliohm", Ground: Ground, Parts: crank(func(m *Machine) {
			m.Motor.Drag += 0.8
			m.Contact = 0.02
		})},
		{Name: "diode-forward", Says: "diode test forward on the charging diode, battery negative off", Ground: Engine, Parts: lifted("AC", "RO", diodeSource, func(m *Machine) {})},
		{Name: "diode-reverse", Says: "diode test reverse with a regulator that leaks 4.7 kilohm", Ground: Engine, Parts: lifted("RO", "AC", diodeSource, func(m *Machine) { m.Leak = 4700 })},
		{Name: "ohms-blown-fuse", Says: "ohms on a blown fuse, a way round through starter and diode", Ground: Engine, Parts: lifted("F1", "F2", ohmSource, func(m *Machine) {
			m.Fuse.Blown = true
			m.Coil.Welded = true
		})},
		{Name: "reversed", Says: "battery the wrong way round, key off, a piece of wire for a fuse", Ground: Ground, Parts: reversed()},
	}
	for i := range points {
		points[i].Amps = []string{"battery", "starter", "diode", "solenoid"}
	}
	return points
}

func crank(change func(*Machine)) []circuit.Part {
	m := KeyStart(Start)
	change(&m)
	return m.Parts()
}

// ghost is an open brake switch that is damp, the solenoid's plug off and a
// voltmeter on the loose wire.
func ghost() Point {
	m := KeyStart(Start)
	m.Brake, m.BrakeLeak, m.CoilPlug = false, 1/(1/20e6+1/Open), false
	m.MeterAt, m.Meter = "PO", Ground
	return Point{
		Name: "ghost", Says: "open damp brake switch, solenoid plug off, 10 megohm meter on the loose wire",
		Ground: Ground, Parts: m.Parts(),
	}
}

// lifted is the machine with the key off, its battery's negative lead off and
// a meter's source from one node to another.
func lifted(red, black string, ohms float64, change func(*Machine)) []circuit.Part {
	m := KeyStart(Off)
	m.Negative = false
	change(&m)
	return append(m.Parts(), circuit.EMF{Name: "ohmmeter", Plus: red, Minus: black, Volts: sourceVolts, Ohms: ohms + leads})
}

// reversed has no fuse that would end it at once.
func reversed() []circuit.Part {
	m := KeyStart(Off)
	m.EMF = -m.EMF
	m.Fuse.Rating = 1000
	return m.Parts()
}

// Chatter is the machine with a sulphated battery: the solenoid pulls in, the
// starter pulls the volts down, the solenoid drops out.
func Chatter() Point {
	return Point{
		Name: "chatter", Says: "battery 0.4 ohm up: the solenoid goes round for ever", Ground: Ground,
		Parts: crank(func(m *Machine) { m.Internal += 0.4 }),
		Amps:  []string{"battery", "starter", "diode", "solenoid"},
	}
}

// Lamps are a supply at its limit of current and one below it, each on lamps.
func Lamps() []Point {
	lamp := func(name string, watts float64) circuit.Part {
		return circuit.Lamp{Name: name, From: "P", To: "N", Volts: 12, Watts: watts}
	}
	on := func(volts, amps float64, more ...circuit.Part) []circuit.Part {
		parts := []circuit.Part{
			circuit.Supply{Name: "supply", Plus: "S", Minus: "N", Volts: volts, Ohms: 0.1, Amps: amps},
			wire("S", "P", 0.05), lamp("lamp", 21),
		}
		return append(parts, more...)
	}
	return []Point{
		{Name: "lamp-battery", Amps: []string{"battery", "lamp"}, Says: "21 W lamp on a battery through 7 ohm", Ground: "N", Parts: []circuit.Part{
			circuit.EMF{Name: "battery", Plus: "S", Minus: "N", Volts: 12.638, Ohms: 0.0160278567},
			wire("S", "P", 7), lamp("lamp", 21),
		}},
		{Name: "supply-free", Amps: []string{"supply"}, Says: "supply of 12.6 V below its limit, on a lamp", Ground: "N", Parts: on(12.6, 3)},
		{Name: "supply-limit", Amps: []string{"supply"}, Says: "supply of 12.6 V at its limit of 1.5 A, on two lamps", Ground: "N", Parts: on(12.6, 1.5, lamp("second", 35))},
		{Name: "supply-full", Amps: []string{"supply"}, Says: "supply below the battery's volts: nothing flows back", Ground: "N", Parts: []circuit.Part{
			circuit.Supply{Name: "supply", Plus: "P", Minus: "N", Volts: 12, Ohms: 0.1, Amps: 2},
			circuit.EMF{Name: "battery", Plus: "B", Minus: "N", Volts: 12.6, Ohms: 0.05},
			wire("B", "P", 0.1),
			circuit.Resistor{Name: "load", From: "P", To: "N", Ohms: 100},
		}},
	}
}
