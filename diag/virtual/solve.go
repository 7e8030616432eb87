package virtual

import (
	"fmt"

	"benchlead/diag/circuit"
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

// waveKey is a net by its fingerprint, and what is asked of it.
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
	waves, err := m.maker.follow(n, hertz, key.circuit)
	if err != nil {
		return circuit.Wave{}, err
	}
	w := of(waves)
	if len(m.maker.waves) >= mostWaves {
		clear(m.maker.waves)
	}
	m.maker.waves[key] = w
	return w, nil
}

// How a circuit is followed: with so many steps a cycle, and for so many cycles at
// most until one is like the next. Against 6000 steps a cycle, 160 move what meters
// show of chargers by less than a thousandth, and 120 by more.
const (
	stepsACycle = 160
	mostCycles  = 128
)

// followed is a circuit that was followed in time. Several things may be asked of
// it one after the other.
type followed struct {
	circuit islandKey
	waves   *circuit.Waves
}

// follow is a cycle of a net that has come to repeat itself; of one that never does,
// a cycle after many.
func (m *Maker) follow(n net, hertz float64, key islandKey) (*circuit.Waves, error) {
	if m.followed.waves != nil && m.followed.circuit == key {
		return m.followed.waves, nil
	}
	c, err := n.build(true)
	if err != nil {
		return nil, err
	}
	m.counts.Followed++
	run := circuit.Run{Hertz: hertz, Settle: mostCycles, Keep: 1, Steps: stepsACycle}
	waves, err := c.Steady(run)
	if waves == nil && err == nil {
		m.counts.Followed++
		waves, err = c.Follow(run)
	}
	if err != nil {
		return nil, fmt.Errorf("followed at %g Hz: %w", hertz, err)
	}
	m.followed = followed{key, waves}
	return waves, nil
}
