package virtual

import (
	"math"

	"benchlead/diag/circuit"
)

// wiring is how an island is solved, whatever its quantities: what ties loose parts
// to the node that volts are counted from, and a circuit of the same parts.
type wiring struct {
	ties []circuit.Part
	like *circuit.Circuit
}

// made is a part of a circuit as it was made last, with the quantities that it was
// made of. Most parts are the same in one situation after the other.
type made struct {
	part circuit.Part
	of   []float64
}

// partOf is a part with the quantities of a row.
func (m *Maker) partOf(i int, row []float64) circuit.Part {
	p, last := &m.parts[i], &m.made[i]
	q := row[p.at:p.present()]
	if last.part == nil || !identical(last.of, q) {
		last.part, last.of = p.kind.build(p.CircuitPart, q), append(last.of[:0], q...)
	}
	return last.part
}

// identical compares to the last bit, as a circuit might.
func identical(a, b []float64) bool {
	for i, v := range a {
		if math.Float64bits(v) != math.Float64bits(b[i]) {
			return false
		}
	}
	return true
}

// build makes the island's circuit for direct current, after one that was made of
// the same parts if there is any.
func (i *island) build() (*circuit.Circuit, error) {
	m, wired := i.net.maker, i.split.wired[i.number]
	if wired == nil {
		list, reference := i.net.wire(false)
		c, err := circuit.New(reference, list...)
		if err == nil {
			i.split.wired[i.number] = &wiring{list[len(i.net.parts):], c}
		}
		return c, err
	}
	m.list = m.list[:0]
	for _, part := range i.net.parts {
		m.list = append(m.list, m.partOf(part, i.net.row))
	}
	m.list = append(m.list, wired.ties...)
	c, err := wired.like.AgainIn(&m.room, m.list...)
	if err == nil && !c.Shares(wired.like) {
		wired.like = c // a diode that is shorted is of another kind
	}
	return c, err
}
