package circuit_test

import (
	"math"

	"benchlead/diag/circuit"
)

// keyStart is a key-start machine with the parameters that public sources or
// common practice give for a single-cylinder riding machine: battery of 250 cold
// cranking amps at 95 % charge and 20 C, geared permanent-magnet starter,
// solenoid, brake and blade switches, half-wave charging. It stands on its own, so
// that no tree is judged by numbers made from the same tree. Ohms, volts,
// newton-metres. Sources of the parameters: definition of the cold-cranking
// rating (SAE J537), copper wire tables (ASTM B258), rest volts in public battery
// tables; the rest is common practice, no source.
type keyStart struct {
	emf, inner              float64
	cabP, contact, cabM     float64
	bond, cabN, postN       float64
	fuse, key, brake, pto   float64
	run, scWire, coil, solG float64
	turns                   float64 // part of the coil's turns that is left
	ra, ke, tm, drag, bm    float64 // starter
	crank, crankViscous     float64 // engine at the crank
	locked, noFuse          bool
	blown, welded, stuck    bool
	stator                  float64
	diodeShort, diodeOpen   bool
	saturation              float64
	regulatorLeak, load     float64
	regulatorOff            bool
	module                  float64
	offKey                  float64 // kill contact of the key
	seatEmpty               bool    // with the blades on: the seat's kill contact closes
	chafed                  float64
	position                position
	burden                  float64 // of an ammeter in the negative; 0: none
	draw                    float64 // from F2 to frame
}

type position int

const (
	off position = iota
	run
	start
)

var open = math.Inf(1)

// Battery equations: cold-cranking amps hold 7.2 V for 30 s at -18 C (SAE J537);
// resistance 1.5 times from +30 to -18 C and 1.4 times from full to empty (public
// article on battery resistance); rest volts 12.7 to 11.7.
func emfAt(charge, celsius float64) float64 {
	table := [][2]float64{{0, 11.70}, {0.25, 12.00}, {0.50, 12.20}, {0.75, 12.42}, {1, 12.70}}
	k := 1
	for k < len(table)-1 && charge > table[k][0] {
		k++
	}
	a, b := table[k-1], table[k]
	return a[1] + (b[1]-a[1])*(charge-a[0])/(b[0]-a[0]) + 6*0.0002*(celsius-25)
}

func innerAt(cca, charge, celsius float64) float64 {
	k := 0.0084473 // ln(1.5)/48 kelvin
	h := func(s float64) float64 { return 1 + 0.4*(1-s) + 0.10/(s+0.01) }
	return 5.4 / cca / math.Exp(43*k) * math.Exp(-k*(celsius-25)) * h(charge) / h(1)
}

func newKeyStart() keyStart {
	m := keyStart{
		cabP: .002, contact: .001, cabM: .0012, bond: .001, cabN: .002, postN: .0003,
		fuse: .004, key: .015, brake: .015, pto: .015, run: .015, scWire: .03, coil: 4, turns: 1, solG: .005,
		ra: .03, ke: .013, tm: .08, bm: 1e-4, crank: 11, crankViscous: .11,
		stator: .45, saturation: 5e-9, regulatorLeak: 50e3, load: open,
		module: 1.2, offKey: .015, chafed: open, draw: open, position: start,
	}
	m.battery(250, .95, 20)
	return m
}

func (m *keyStart) battery(cca, charge, celsius float64) {
	m.emf, m.inner = emfAt(charge, celsius), innerAt(cca, charge, celsius)
	// Oil thickens by 1.2 % a kelvin under 20 C: common practice, no source.
	thick := 1 + 0.012*max(0, 20-celsius)
	m.crank, m.crankViscous = 11*thick, .11*thick
}

// motor is the starter with the engine reduced to its armature: ratio 16, 0.9.
func (m keyStart) motor() circuit.Motor {
	return circuit.Motor{
		Name: "starter", Plus: "ST", Minus: "EB", Ohms: m.ra, Ke: m.ke, Brush: .8, BrushAmps: 5,
		Drag: m.tm + m.drag + m.crank/(16*.9), Viscous: m.bm + m.crankViscous/(16*16*.9), Locked: m.locked,
	}
}

func rpm(armature float64) float64 { return armature / 16 * 60 / (2 * math.Pi) }

func (m keyStart) parts() []circuit.Part {
	r := func(name, from, to string, ohms float64) circuit.Part {
		return circuit.Resistor{Name: name, From: from, To: to, Ohms: ohms}
	}
	c := func(name, from, to string, closed bool, ohms float64) circuit.Part {
		return circuit.Switch{Name: name, From: from, To: to, Closed: closed, Ohms: ohms, Leak: 1e9}
	}
	parts := []circuit.Part{
		circuit.EMF{Name: "cells", Plus: "E", Minus: "0", Volts: m.emf},
		r("Rint", "E", "BP", m.inner), r("postP", "BP", "CP", .0003), r("cabP", "CP", "SB", m.cabP),
		circuit.Relay{
			Name: "solenoid", From: "SB", To: "SM", CoilFrom: "SC", CoilTo: "SG", CoilOhms: m.coil,
			PullIn: 7.0 / 4 / m.turns, DropOut: 3.2 / 4 / m.turns, Ohms: m.contact, Leak: 1e9, Welded: m.welded, Stuck: m.stuck,
		},
		r("cabM", "SM", "ST", m.cabM), m.motor(),
		r("bond", "EB", "CH", m.bond), r("cabN", "CH", "CN", m.cabN), r("postN", "CN", "0", m.postN+m.burden),
		r("feed", "SB", "F1", .01),
		r("F2-KB", "F2", "KB", .025),
		c("key S", "KB", "KS", m.position == start, m.key), c("key L", "KB", "KL", m.position != off, m.run),
		r("KS-BI", "KS", "BI", .02), r("brake", "BI", "BO", m.brake), r("BO-PI", "BO", "PI", .02),
		r("PTO", "PI", "PO", m.pto), r("PO-SC", "PO", "SC", m.scWire), r("SG-CH", "SG", "CH", m.solG),
		r("fuel", "KL", "EB", 30), r("hours", "KL", "CH", 2500),
		r("module", "KM", "EB", m.module),
		c("key M", "KM", "CH", m.position == off, m.offKey), c("seat", "KM", "CH", m.seatEmpty, .015),
		r("chafed", "KM", "CH", m.chafed),
		r("stator", "EB", "AC", m.stator), r("RO-F2", "RO", "F2", m.regulatorOut()),
		r("regulator", "RO", "EB", m.regulatorLeak), r("load", "RO", "EB", m.load), r("draw", "F2", "CH", m.draw),
	}
	if m.noFuse {
		parts = append(parts, r("fuse", "F1", "F2", m.fuse))
	} else {
		parts = append(parts, circuit.Fuse{Name: "fuse", From: "F1", To: "F2", Rating: 20, Ohms: m.fuse, Blown: m.blown})
	}
	return append(parts, m.rectifier()...)
}

func (m keyStart) regulatorOut() float64 {
	if m.regulatorOff {
		return open
	}
	return .03
}

func (m keyStart) rectifier() []circuit.Part {
	link := circuit.Resistor{Name: "diode ohms", From: "D", To: "RO", Ohms: .02}
	switch {
	case m.diodeShort:
		return []circuit.Part{circuit.Resistor{Name: "diode", From: "AC", To: "RO", Ohms: .02}}
	case m.diodeOpen:
		return []circuit.Part{circuit.Resistor{Name: "diode", From: "AC", To: "RO", Ohms: open}}
	}
	return []circuit.Part{circuit.Diode{Name: "diode", Anode: "AC", Cathode: "D", Saturation: m.saturation}, link}
}
