package virtual

import (
	"fmt"
	"math"

	"benchlead/diag/circuit"
)

// rest is the island with direct current, solved once.
func (m *Machine) rest(i *island) (*circuit.Solution, error) {
	if err := m.prepare(i); err != nil {
		return nil, err
	}
	if i.solution == nil {
		m.maker.counts.Solved++
		i.solution, i.err = i.circuit.Solve()
	}
	return i.solution, i.err
}

// prepare makes the island's circuit, once.
func (m *Machine) prepare(i *island) error {
	if i.circuit == nil && i.err == nil {
		i.circuit, i.err = i.net.build(insulation)
	}
	return i.err
}

// phase is the operating point that figures are given for: with relays that
// chatter, the one in which most are closed, and of a certain relay one in which
// it is.
func (n net) phase(s *circuit.Solution, relay string) *circuit.Phase {
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

// The wave of a thing, in a circuit that is followed in time.
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
	c, err := n.build(windingInsulation)
	if err != nil {
		return circuit.Wave{}, err
	}
	w, err := m.maker.follow(c, hertz, of)
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
// doubled until the figures stay.
const (
	stepsACycle = 240
	fewCycles   = 4
	mostCycles  = 128
)

// follow runs the circuit until what is asked for no longer changes.
func (m *Maker) follow(c *circuit.Circuit, hertz float64, of waveOf) (circuit.Wave, error) {
	var before circuit.Wave
	for settle := fewCycles; ; settle *= 2 {
		m.counts.Followed++
		waves, err := c.Follow(circuit.Run{Hertz: hertz, Settle: settle, Keep: 1, Steps: stepsACycle})
		if err != nil {
			return circuit.Wave{}, fmt.Errorf("followed at %g Hz: %w", hertz, err)
		}
		w := of(waves)
		if settle > fewCycles && settled(before, w) || settle >= mostCycles {
			return w, nil
		}
		before = w
	}
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
