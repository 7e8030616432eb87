// Package reference holds the circuits that the solver is measured with: an
// invented riding machine with key start, chargers and stators, with figures as
// they are common in the trade. Tests, the comparison with ngspice and the
// benchmarks share them, so that they speak of the same circuits. No tree
// reads them.
//
// Basis of the figures: copper tables for cables and wires (6 AWG 1.30 and
// 16 AWG 13.2 milliohm a metre); the rest common practice, no source.
package reference

import "benchlead/diag/circuit"

// Key is where the ignition key stands.
type Key string

// Positions of the key.
const (
	Off   Key = "off"
	Run   Key = "run"
	Start Key = "start"
)

// Open is what an open contact still conducts, in ohm: a clean air gap.
const Open = 1e9

// Machine is the key-start system, healthy as KeyStart gives it. A fault is a
// change of fields. Resistances in ohm.
type Machine struct {
	Key Key

	EMF, Internal float64 // battery at rest, V; negative when put in the wrong way round
	Negative      bool    // the battery's negative lead is on
	Post          float64 // either clamp on its post
	CablePlus     float64
	Contact       float64 // of the solenoid, closed
	CableStarter  float64
	Bond          float64 // engine to frame
	CableMinus    float64

	Fuse       circuit.Fuse
	KeyContact float64
	Wire       float64 // of the start chain up to the PTO switch
	CoilWire   float64
	CoilPlug   bool // the solenoid's small wire is on
	Brake, PTO bool // start switches closed
	BrakeLeak  float64
	Coil       circuit.Relay

	Motor circuit.Motor

	Winding        float64
	Diode          float64 // in series with the junction
	Shorted        bool    // the diode's junction
	Leak           float64 // of the regulator, output to engine
	Saturation     float64 // A, of the diode
	Ideality       float64
	FuelSolenoid   float64
	HourMeter      float64
	Ignition       float64 // kill terminal to engine
	KillKey, Seat  bool    // closed contacts that stop the engine
	MeterAt, Meter string  // nodes of a 10 megohm voltmeter; empty is none
}

// KeyStart is the healthy machine with the key held in that position: 250 A cold
// cranking, 95 % charged at 20 C, starter against a warm engine.
func KeyStart(key Key) Machine {
	return Machine{
		Key: key, EMF: 12.638, Internal: 0.0160278567, Negative: true,
		Post: 0.0003, CablePlus: 0.002, Contact: 0.001, CableStarter: 0.0012, Bond: 0.001, CableMinus: 0.002,
		Fuse:       circuit.Fuse{Name: "fuse", From: "F1", To: "F2", Rating: 20, Ohms: 0.004},
		KeyContact: 0.015, Wire: 0.02, CoilWire: 0.03, CoilPlug: true, Brake: true, PTO: true, BrakeLeak: Open,
		Coil: circuit.Relay{
			Name: "solenoid", From: "SB", To: "SM", CoilFrom: "SC", CoilTo: "SG",
			CoilOhms: 4, PullIn: 7.0 / 4, DropOut: 3.2 / 4, Leak: Open,
		},
		Motor: circuit.Motor{
			Name: "starter", Plus: "ST", Minus: "EB",
			Ohms: 0.03, Ke: 0.013, Brush: 0.8, BrushAmps: 5, Drag: 0.8438888889, Viscous: 5.7743055556e-4,
		},
		Winding: 0.45, Diode: 0.02, Leak: 50000, Saturation: 5e-9, Ideality: 1.8,
		FuelSolenoid: 30, HourMeter: 2500, Ignition: 1.2,
	}
}

// Ground is the node that volts are counted from while the battery is in; with
// its negative lead off, bench work counts from Engine.
const (
	Ground = "BN"
	Engine = "EB"
)

// Parts are the machine's parts; they are named after their ends where they
// have no name of their own.
func (m Machine) Parts() []circuit.Part {
	parts := m.power()
	parts = append(parts, m.control()...)
	parts = append(parts, m.charging()...)
	if m.MeterAt != "" {
		parts = append(parts, circuit.Resistor{Name: "meter", From: m.MeterAt, To: m.Meter, Ohms: 10e6})
	}
	return parts
}

func (m Machine) power() []circuit.Part {
	solenoid := m.Coil
	solenoid.Ohms = m.Contact
	return []circuit.Part{
		circuit.EMF{Name: "battery", Plus: "BP", Minus: "BN", Volts: m.EMF, Ohms: m.Internal},
		wire("BP", "CP", m.Post),
		wire("CP", "SB", m.CablePlus),
		solenoid,
		wire("SM", "ST", m.CableStarter),
		m.Motor,
		wire("EB", "CH", m.Bond),
		wire("CH", "CN", m.CableMinus),
		contact("negative", "CN", "BN", m.Negative, m.Post),
	}
}

func (m Machine) control() []circuit.Part {
	brake := contact("brake", "BI", "BO", m.Brake, 0.015)
	brake.Leak = m.BrakeLeak
	return []circuit.Part{
		wire("SB", "F1", 0.01),
		m.Fuse,
		wire("F2", "KB", 0.025),
		contact("key start", "KB", "KS", m.Key == Start, m.KeyContact),
		contact("key run", "KB", "KL", m.Key != Off, m.KeyContact),
		wire("KS", "BI", m.Wire),
		brake,
		wire("BO", "PI", m.Wire),
		contact("pto", "PI", "PO", m.PTO, 0.015),
		contact("coil wire", "PO", "SC", m.CoilPlug, m.CoilWire),
		wire("SG", "CH", 0.005),
		circuit.Resistor{Name: "fuel solenoid", From: "KL", To: "EB", Ohms: m.FuelSolenoid},
		circuit.Resistor{Name: "hour meter", From: "KL", To: "CH", Ohms: m.HourMeter},
		circuit.Resistor{Name: "ignition", From: "KM", To: "EB", Ohms: m.Ignition},
		contact("key kill", "KM", "CH", m.KillKey, 0.02),
		contact("seat", "KM", "CH", m.Seat, 0.02),
	}
}

func (m Machine) charging() []circuit.Part {
	var diode circuit.Part = circuit.Diode{
		Name: "diode", Anode: "AC", Cathode: "RO",
		Ohms: m.Diode, Saturation: m.Saturation, Ideality: m.Ideality,
	}
	if m.Shorted {
		diode = circuit.Resistor{Name: "diode", From: "AC", To: "RO", Ohms: m.Diode}
	}
	return []circuit.Part{
		circuit.Resistor{Name: "stator", From: "EB", To: "AC", Ohms: m.Winding},
		diode,
		circuit.Resistor{Name: "regulator", From: "RO", To: "EB", Ohms: m.Leak},
		wire("RO", "F2", 0.03),
	}
}

func wire(from, to string, ohms float64) circuit.Resistor {
	return circuit.Resistor{Name: from + "-" + to, From: from, To: to, Ohms: ohms}
}

func contact(name, from, to string, closed bool, ohms float64) circuit.Switch {
	return circuit.Switch{Name: name, From: from, To: to, Closed: closed, Ohms: ohms, Leak: Open}
}
