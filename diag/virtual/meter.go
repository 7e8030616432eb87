package virtual

import (
	"math"

	"benchlead/diag/circuit"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// metered is what an instrument shows of a test.
func (m *Machine) metered(test *tree.Test, with instrument) (Answer, error) {
	if r := m.maker.reads[test.ID]; r != nil {
		return m.read(r, test)
	}
	if !m.maker.touches(test) {
		return Answer{}, m.maker.cant(test.ID, "the circuit has no part at the points it touches")
	}
	s, err := m.in(test.State, test.With)
	if err != nil {
		return Answer{}, err
	}
	switch test.Function {
	case measure.DCVolts, measure.ACVolts:
		return m.volts(s, test, with)
	case measure.Ohms, measure.Continuity, measure.DiodeTest:
		return m.ohms(s, test, with)
	case measure.DCAmps:
		return m.ampsBetween(s, test, with)
	case measure.ClampAmps:
		return m.ampsThrough(s, test.Red)
	}
	return Answer{}, m.maker.cant(test.ID, "the circuit's points do not give "+string(test.Function))
}

// probed are the islands under two leads. Both are nil where a lead touches
// nothing that is joined to anything.
func (m *Machine) probed(s *situation, red, black string) (a, b *island) {
	i, j := s.split.island[m.maker.nodes[red]], s.split.island[m.maker.nodes[black]]
	if i < 0 || j < 0 {
		return nil, nil
	}
	return s.islands[i], s.islands[j]
}

func (m *Machine) volts(s *situation, test *tree.Test, with instrument) (Answer, error) {
	a, b := m.probed(s, test.Red, test.Black)
	if a == nil {
		return steady(0), nil
	}
	if s.followed(a) || s.followed(b) {
		w, err := m.waveBetween(s, test, with.input)
		return steady(with.ofWave(test.Function, w)), err
	}
	values, err := m.voltsAtRest(s, a, b, test, with.input)
	if err != nil {
		return Answer{}, err
	}
	for i, v := range values {
		values[i] = with.ofSteady(test.Function, v)
	}
	return among(values), nil
}

// voltsAtRest is what a voltmeter shows in each phase.
func (m *Machine) voltsAtRest(s *situation, a, b *island, test *tree.Test, input float64) ([]float64, error) {
	var values []float64
	if a == b {
		solution, err := m.rest(a)
		if err != nil {
			return nil, err
		}
		for _, p := range solution.Phases {
			values = append(values, p.MeteredIn(&m.maker.room, test.Red, test.Black, input))
		}
		return values, nil
	}
	solution, err := m.solve(m.joined(s, a, b, test.Red, test.Black, input, "volts").net)
	if err != nil {
		return nil, err
	}
	for _, p := range solution.Phases {
		values = append(values, p.Across(test.Red, test.Black))
	}
	m.maker.room.Reuse(solution)
	return values, nil
}

// waveBetween is the wave under the leads of a meter that is part of the net. Of
// a meter the other way round it is the same wave, turned over.
func (m *Machine) waveBetween(s *situation, test *tree.Test, ohms float64) (circuit.Wave, error) {
	red, black := test.Red, test.Black
	if red > black {
		red, black = black, red
	}
	a, b := m.probed(s, red, black)
	j := m.joined(s, a, b, red, black, ohms, "volts")
	w, err := m.wave(j.net, j.hertz, waveKey{j.key, j.with}, func(w *circuit.Waves) circuit.Wave { return w.Between(red, black) })
	if red != test.Red {
		w = turned(w)
	}
	return w, err
}

// turned is a wave with its sign changed. The mean is the positive half's less
// the negative half's, which gives the other reading of a cheap ac range.
func turned(w circuit.Wave) circuit.Wave {
	w.Cheap -= w.Mean * math.Pi / math.Sqrt2
	w.Mean, w.Least, w.Most = -w.Mean, -w.Most, -w.Least
	return w
}

// ohms is what the meter's own source shows. Between two islands nothing flows.
func (m *Machine) ohms(s *situation, test *tree.Test, with instrument) (Answer, error) {
	a, b := m.probed(s, test.Red, test.Black)
	if a == nil || a != b {
		return Answer{Value: math.Inf(1), Low: math.Inf(1), High: math.Inf(1), Over: true}, nil
	}
	shown, err := m.driven(a, test, with.own)
	if err != nil {
		return Answer{}, err
	}
	out := steady(shown.Value)
	if shown.Value > with.own.Full {
		out = steady(math.Inf(1))
		out.Over = true
	}
	out.Live = shown.Live || s.followed(a)
	return out, nil
}

// ohmed is what an ohmmeter showed last: its scales differ only by their full
// scale, for which the circuit need not be asked again.
type ohmed struct {
	island     *island
	red, black string
	own        circuit.OhmMeter
	diode      bool
	shown      circuit.OhmsShown
}

// driven asks an island with a meter that is never over range.
func (m *Machine) driven(i *island, test *tree.Test, own circuit.OhmMeter) (circuit.OhmsShown, error) {
	own.Full = math.Inf(1)
	now := ohmed{island: i, red: test.Red, black: test.Black, own: own, diode: test.Function == measure.DiodeTest}
	if last := m.ohmed; last.island != nil {
		now.shown = last.shown
		if now == last {
			return last.shown, nil
		}
	}
	solution, err := m.rest(i)
	if err != nil {
		return circuit.OhmsShown{}, err
	}
	m.maker.counts.Solved++
	ask := (*circuit.Phase).Ohms
	if now.diode {
		ask = (*circuit.Phase).DiodeTest
	}
	now.shown, err = ask(solution.Phases[0], test.Red, test.Black, own, &m.maker.room)
	if err == nil {
		m.ohmed = now
	}
	return now.shown, err
}
