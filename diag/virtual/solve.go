package virtual

import (
	"fmt"
	"math"

	"benchlead/diag/circuit"
	"benchlead/diag/tree"
)

// rest is the island with direct current, solved once.
func (m *Machine) rest(i *island) (*circuit.Solution, error) {
	if err := m.prepare(i); err != nil {
		return nil, err
	}
	if i.solution == nil {
		m.maker.counts.Solved++
		i.solution, i.err = i.circuit.SolveIn(&m.maker.room)
	}
	return i.solution, i.err
}

// prepare makes the island's circuit, once.
func (m *Machine) prepare(i *island) error {
	if i.circuit == nil && i.err == nil {
		i.circuit, i.err = i.build()
	}
	return i.err
}

// phase is the operating point that figures are given for: with relays that
// chatter, the one in which most are closed, and of a certain relay one in which
// it is.
func (n net) phase(s *circuit.Solution, relay string) *circuit.Phase {
	if len(s.Phases) == 1 {
		return s.Phases[0]
	}
	best, most := s.Phases[0], -1
	for _, p := range s.Phases {
		closed := 0
		for _, i := range n.parts {
			part := &n.maker.parts[i]
			if part.Coil[0] == "" || !p.Closed(part.ID) {
				continue
			}
			closed++
			if part.ID == relay {
				closed += len(n.parts)
			}
		}
		if closed > most {
			best, most = p, closed
		}
	}
	return best
}

// followed says whether the island is followed in time.
func (s *situation) followed(i *island) bool { return s.waves && i.hertz > 0 }

// waveOf picks the wave of a thing out of a circuit that was followed in time.
type waveOf func(*circuit.Waves) circuit.Wave

// waveKey is a circuit by its fingerprint, and what is asked of it.
type waveKey struct {
	circuit islandKey
	what    string
}

// mostWaves is how many waves a Maker remembers; then it starts anew.
const mostWaves = 1 << 15

// wave is what meters show of one wave of a net. Nets with the same exact
// quantities recur from fault to fault, so the Maker remembers them.
func (m *Machine) wave(n net, hertz float64, key waveKey, of waveOf) (circuit.Wave, error) {
	if w, ok := m.maker.waves[key]; ok {
		return w, nil
	}
	c, err := n.build(true)
	if err != nil {
		return circuit.Wave{}, err
	}
	w, err := m.maker.follow(c, hertz, n.stores(), of)
	if err != nil {
		return circuit.Wave{}, err
	}
	if len(m.maker.waves) >= mostWaves {
		clear(m.maker.waves)
	}
	m.maker.waves[key] = w
	return w, nil
}

// How a circuit is followed: with so many steps a cycle, the cycles that settle
// doubled until the figures stay. Without a coil or a capacitor to speak of, one
// cycle is like the next.
const (
	stepsACycle = 120
	atOnce      = 2
	fewCycles   = 4
	mostCycles  = 128
)

// stores says whether a part holds energy from one cycle to the next: a capacitor
// that is more than wires have, or a coil whose current lives on for a fair part
// of a cycle (its inductance over its own resistance).
func (n net) stores() bool {
	const (
		hertz, ohms, henries = 1, 2, 3 // in the row of a winding
		stray                = 1e-9    // farads
		part                 = 0.1     // of a cycle
	)
	for _, i := range n.parts {
		p := &n.maker.parts[i]
		q := n.row[p.at:p.present()]
		switch p.Kind {
		case tree.IsCapacitor:
			if q[0] > stray {
				return true
			}
		case tree.IsWinding:
			if q[henries]*q[hertz] > part*q[ohms] {
				return true
			}
		}
	}
	return false
}

// follow runs the circuit until what is asked for no longer changes.
func (m *Maker) follow(c *circuit.Circuit, hertz float64, stores bool, of waveOf) (circuit.Wave, error) {
	if !stores {
		return m.cycle(c, hertz, atOnce, of)
	}
	var before circuit.Wave
	for settle := fewCycles; ; settle *= 2 {
		w, err := m.cycle(c, hertz, settle, of)
		if err != nil || settle > fewCycles && settled(before, w) || settle >= mostCycles {
			return w, err
		}
		before = w
	}
}

// cycle is the wave of the cycle after so many.
func (m *Maker) cycle(c *circuit.Circuit, hertz float64, settle int, of waveOf) (circuit.Wave, error) {
	m.counts.Followed++
	waves, err := c.Follow(circuit.Run{Hertz: hertz, Settle: settle, Keep: 1, Steps: stepsACycle})
	if err != nil {
		return circuit.Wave{}, fmt.Errorf("followed at %g Hz: %w", hertz, err)
	}
	return of(waves), nil
}

// settled says that two waves are the same to a meter.
func settled(a, b circuit.Wave) bool {
	const share, least = 1e-3, 1e-4
	most := share*math.Max(a.RMS, b.RMS) + least
	for _, pair := range [...][2]float64{{a.Mean, b.Mean}, {a.RMS, b.RMS}, {a.Average, b.Average}, {a.True, b.True}} {
		if math.Abs(pair[0]-pair[1]) > most {
			return false
		}
	}
	return true
}
