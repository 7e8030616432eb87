package virtual

import (
	"math"

	"benchlead/diag/circuit"
	"benchlead/diag/tree"
)

// ampsBetween is the current through a meter that joins two points.
func (m *Machine) ampsBetween(s *situation, test *tree.Test, with instrument) (Answer, error) {
	a, b := m.probed(s, test.Red, test.Black)
	if a == nil {
		return steady(0), nil
	}
	j := m.joined(s, a, b, test.Red, test.Black, with.input, "amps")
	if s.followed(a) || s.followed(b) {
		w, err := m.wave(j.net, j.hertz, waveKey{j.key, j.with}, func(w *circuit.Waves) circuit.Wave { return w.Through(meterPart) })
		return steady(w.Mean), err
	}
	solution, err := m.solve(j.net)
	if err != nil {
		return Answer{}, err
	}
	var values []float64
	for _, p := range solution.Phases {
		values = append(values, p.Amps(meterPart))
	}
	m.maker.room.Reuse(solution)
	return among(values), nil
}

// ampsThrough is what a clamp shows around the conductor at a point: all that
// flows away from the point through the parts that end there.
func (m *Machine) ampsThrough(s *situation, point string) (Answer, error) {
	number := s.split.island[m.maker.nodes[point]]
	if number < 0 {
		return steady(0), nil
	}
	i := s.islands[number]
	if s.followed(i) {
		var sum float64
		for _, k := range i.net.parts {
			mean, err := m.meanFigure(s, i, &m.maker.parts[k], "amps")
			if err != nil {
				return Answer{}, err
			}
			sum += math.Max(0, m.maker.parts[k].leaving(point, mean))
		}
		return steady(sum), nil
	}
	solution, err := m.rest(i)
	if err != nil {
		return Answer{}, err
	}
	var values []float64
	for _, phase := range solution.Phases {
		var sum float64
		for _, k := range i.net.parts {
			p := &m.maker.parts[k]
			sum += math.Max(0, p.leaving(point, phase.Amps(p.ID)))
			if p.Coil[0] == point || p.Coil[1] == point {
				sum += math.Max(0, p.coilLeaving(point, phase.CoilAmps(p.ID)))
			}
		}
		values = append(values, sum)
	}
	return among(values), nil
}

// leaving is a part's current away from a point; 0 if it doesn't end there.
func (p *part) leaving(point string, amps float64) float64 {
	switch point {
	case p.From:
		return amps
	case p.To:
		return -amps
	}
	return 0
}

func (p *part) coilLeaving(point string, amps float64) float64 {
	if p.Coil[0] == point {
		return amps
	}
	return -amps
}
