package virtual

import (
	"math"

	"benchlead/diag/circuit"
)

// joining is a net of the islands under the leads, with the meter in it.
type joining struct {
	net
	key   islandKey
	hertz float64
	with  string // what the meter does there
}

// meterPart is how the meter is called in the circuit.
const meterPart = "the meter"

// joined puts a meter's resistance between two points, with the capacitance of
// its leads where something alternates. The quantities are those of the situation:
// an island may be kept from another one, in which the rest stood otherwise.
func (m *Machine) joined(s *situation, a, b *island, from, to string, ohms float64, as string) joining {
	red, black := m.maker.nodes[from], m.maker.nodes[to]
	j := joining{net: net{maker: m.maker, row: s.row, parts: a.net.parts}, key: a.key, hertz: a.hertz, with: as}
	if a != b {
		j.parts = append(append([]int{}, a.net.parts...), b.net.parts...)
		j.key = islandKey{j.key.a ^ b.key.a, j.key.b + b.key.b}
		if b.hertz > 0 && (j.hertz == 0 || b.hertz < j.hertz) {
			j.hertz = b.hertz
		}
	}
	j.added = []added{{part: circuit.Resistor{Name: meterPart, From: from, To: to, Ohms: ohms}, from: red, to: black}}
	if j.hertz > 0 && as == "volts" {
		c := circuit.Capacitor{Name: "the leads", From: from, To: to, Farads: leadFarads}
		j.added = append(j.added, added{part: c, from: red, to: black, insulating: true})
		j.key = j.key.with(math.Float64bits(leadFarads))
	}
	j.key = j.key.with(math.Float64bits(ohms)).with(uint64(red)).with(uint64(black))
	return j
}

// solve solves a net that a meter has changed. Its solution goes back to the room
// when it has been read.
func (m *Machine) solve(n net) (*circuit.Solution, error) {
	c, err := n.build(false)
	if err != nil {
		return nil, err
	}
	m.maker.counts.Solved++
	return c.SolveIn(&m.maker.room)
}
