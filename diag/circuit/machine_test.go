package circuit_test

import (
	"math"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
)

// machine is the reference machine with what only some tables change: the
// resistance of parts by name, and parts that are added. It stands apart from
// every tree, so that none is judged by numbers made from the same tree.
type machine struct {
	reference.Machine
	ohms  map[string]float64
	added []circuit.Part
}

func newMachine(key reference.Key) *machine {
	m := &machine{Machine: reference.KeyStart(key), ohms: map[string]float64{}}
	m.KillKey = key == reference.Off
	return m
}

func (m *machine) parts() []circuit.Part {
	parts := append(m.Parts(), m.added...)
	for i, p := range parts {
		switch p := p.(type) {
		case circuit.Resistor:
			if ohms, other := m.ohms[p.Name]; other {
				p.Ohms = ohms
			}
			parts[i] = p
		case circuit.Switch:
			if ohms, other := m.ohms[p.Name]; other {
				p.Ohms = ohms
			}
			parts[i] = p
		}
	}
	return parts
}

func (m *machine) across(from, to string, ohms float64) {
	m.added = append(m.added, circuit.Resistor{Name: "added " + from + to, From: from, To: to, Ohms: ohms})
}

// battery is one of that rating, charge and temperature, and the engine as cold.
func (m *machine) battery(cca, charge, celsius float64) {
	m.EMF, m.Internal = emfAt(charge, celsius), innerAt(cca, charge, celsius)
	// Oil thickens by 1.2 % a kelvin under 20 C: common practice, no source.
	thick := 1 + 0.012*max(0, 20-celsius)
	// The starter's own friction, then the crank's through a ratio of 16 at 0.9.
	m.Motor.Drag = 0.08 + 11*thick/(16*0.9)
	m.Motor.Viscous = 1e-4 + 0.11*thick/(16*16*0.9)
}

// Cold-cranking amps hold 7.2 V for 30 s at -18 C (SAE J537); resistance 1.5
// times from +30 to -18 C and 1.4 times from full to empty (public article on
// battery resistance); rest volts 12.7 to 11.7 (public battery tables).
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
	k := math.Log(1.5) / 48
	h := func(s float64) float64 { return 1 + 0.4*(1-s) + 0.10/(s+0.01) }
	return 5.4 / cca / math.Exp(43*k) * math.Exp(-k*(celsius-25)) * h(charge) / h(1)
}

// rpm of the engine, by the starter's ratio of 16.
func rpm(armature float64) float64 { return armature / 16 * 60 / (2 * math.Pi) }
