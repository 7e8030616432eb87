package virtual

import (
	"math"
	"strconv"

	"benchlead/diag/circuit"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// instrument is what a meter is to the circuit.
type instrument struct {
	input float64 // ohm: across the leads on volts, between them on amps
	ac    acMode
	own   circuit.OhmMeter
}

// acMode is how a meter reads ac volts.
type acMode int

const (
	trueRMS   acMode = iota
	averaging        // behind a capacitor
	cheap            // a rectifier without a capacitor: direct current shows too
)

// What meters are to a circuit, where their tables don't say. Service texts ask
// for 10 Mohm on volts; the rest is common practice, no source.
const (
	voltsInput  = 10e6
	ampsBurden  = 0.02 // the 10 A jack
	ohmsSource  = 2.8  // V
	ohmsBehind  = 2200
	diodeBehind = 2800
	leads       = 0.2 // ohm, both together
	leadFarads  = 100e-12
	mostOhms    = 40e6
	mostBeep    = 600
	mostDiode   = 2.0 // V
)

// ideal is the meter behind an Answer.
func ideal(f measure.Function) instrument {
	i := instrument{input: voltsInput, own: circuit.OhmMeter{Volts: ohmsSource, Ohms: ohmsBehind, Leads: leads, Full: mostOhms}}
	switch f {
	case measure.DCAmps:
		i.input = ampsBurden
	case measure.Continuity:
		i.own.Full = mostBeep
	case measure.DiodeTest:
		i.own.Ohms, i.own.Full = diodeBehind, mostDiode
	}
	return i
}

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
		w, err := m.waveBetween(m.joined(a, b, test, with.input, "volts"), test.Red, test.Black)
		return steady(with.ofWave(test.Function, w)), err
	}
	values, err := m.voltsAtRest(a, b, test, with.input)
	if err != nil {
		return Answer{}, err
	}
	for i, v := range values {
		values[i] = with.ofSteady(test.Function, v)
	}
	return among(values), nil
}

// voltsAtRest is what a voltmeter shows in each phase.
func (m *Machine) voltsAtRest(a, b *island, test *tree.Test, input float64) ([]float64, error) {
	var values []float64
	if a == b {
		solution, err := m.rest(a)
		if err != nil {
			return nil, err
		}
		for _, p := range solution.Phases {
			values = append(values, p.Metered(test.Red, test.Black, input))
		}
		return values, nil
	}
	solution, err := m.solve(m.joined(a, b, test, input, "volts").net)
	if err != nil {
		return nil, err
	}
	for _, p := range solution.Phases {
		values = append(values, p.Across(test.Red, test.Black))
	}
	return values, nil
}

// ofWave is what the meter shows of volts that alternate.
func (i instrument) ofWave(f measure.Function, w circuit.Wave) float64 {
	switch {
	case f == measure.DCVolts:
		return w.Mean
	case i.ac == averaging:
		return w.Average
	case i.ac == cheap:
		return w.Cheap
	}
	return w.True
}

// ofSteady is what the meter shows of volts that don't. A cheap ac range takes
// them for the positive halves of a wave: pi over the square root of 2.
func (i instrument) ofSteady(f measure.Function, v float64) float64 {
	switch {
	case f == measure.DCVolts:
		return v
	case i.ac == cheap:
		return math.Max(0, v) * math.Pi / math.Sqrt2
	}
	return 0
}

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
// its leads where something alternates.
func (m *Machine) joined(a, b *island, test *tree.Test, ohms float64, as string) joining {
	red, black := m.maker.nodes[test.Red], m.maker.nodes[test.Black]
	j := joining{net: a.net, key: a.key, hertz: a.hertz, with: as}
	if a != b {
		j.parts = append(append([]int{}, a.net.parts...), b.net.parts...)
		j.key = islandKey{j.key.a ^ b.key.a, j.key.b + b.key.b}
		if b.hertz > 0 && (j.hertz == 0 || b.hertz < j.hertz) {
			j.hertz = b.hertz
		}
	}
	j.added = []added{{part: circuit.Resistor{Name: meterPart, From: test.Red, To: test.Black, Ohms: ohms}, from: red, to: black}}
	if j.hertz > 0 && as == "volts" {
		c := circuit.Capacitor{Name: "the leads", From: test.Red, To: test.Black, Farads: leadFarads}
		j.added = append(j.added, added{part: c, from: red, to: black, insulating: true})
	}
	j.key = j.key.with(math.Float64bits(ohms)).with(uint64(red)).with(uint64(black))
	return j
}

// waveBetween is the wave under the leads of a meter that is part of the net.
func (m *Machine) waveBetween(j joining, red, black string) (circuit.Wave, error) {
	return m.wave(j.net, j.hertz, waveKey{j.key, j.with}, func(w *circuit.Waves) circuit.Wave { return w.Between(red, black) })
}

// solve solves a net that a meter has changed.
func (m *Machine) solve(n net) (*circuit.Solution, error) {
	c, err := n.build(insulation)
	if err != nil {
		return nil, err
	}
	m.maker.counts.Solved++
	return c.Solve()
}

// ohms is what the meter's own source shows. Between two islands nothing flows.
func (m *Machine) ohms(s *situation, test *tree.Test, with instrument) (Answer, error) {
	a, b := m.probed(s, test.Red, test.Black)
	if a == nil || a != b {
		return Answer{Value: math.Inf(1), Low: math.Inf(1), High: math.Inf(1), Over: true}, nil
	}
	if err := m.prepare(a); err != nil {
		return Answer{}, err
	}
	m.maker.counts.Solved++
	ask := a.circuit.Ohms
	if test.Function == measure.DiodeTest {
		ask = a.circuit.DiodeTest
	}
	shown, err := ask(test.Red, test.Black, with.own)
	if err != nil {
		return Answer{}, err
	}
	out := steady(shown.Value)
	if shown.Over {
		out = steady(math.Inf(1))
	}
	out.Over, out.Live = shown.Over, shown.Live || s.followed(a)
	return out, nil
}

// ampsBetween is the current through a meter that joins two points.
func (m *Machine) ampsBetween(s *situation, test *tree.Test, with instrument) (Answer, error) {
	a, b := m.probed(s, test.Red, test.Black)
	if a == nil {
		return steady(0), nil
	}
	j := m.joined(a, b, test, with.input, "amps")
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

// instrumentOf is a meter on one of its scales.
func instrumentOf(meter measure.Meter, s measure.Scale) instrument {
	i := ideal(s.Function)
	if s.InputOhms > 0 {
		i.input = s.InputOhms
	}
	i.own.Full = fullest(meter, s.Function)
	switch {
	case meter.TrueRMS:
	case s.InputOhms > 0 && s.InputOhms < passive:
		i.ac = cheap
	default:
		i.ac = averaging
	}
	return i
}

// passive is the input resistance under which an ac range that doesn't give the
// true RMS is taken for a bare rectifier before the dc range: 450 kohm is usual.
// Common practice, no source.
const passive = 1e6

// fullest is the top of the highest scale of a function.
func fullest(meter measure.Meter, f measure.Function) float64 {
	var full float64
	for _, s := range meter.Scales {
		if s.Function == f {
			full = math.Max(full, s.FullScale)
		}
	}
	return full
}

// rounded is a value as digits show it, without the dust of binary numbers.
func rounded(value, step float64) float64 {
	if !(step > 0) {
		return value
	}
	n := math.Round(value / step)
	out, err := strconv.ParseFloat(strconv.FormatFloat(n*step, 'g', 12, 64), 64)
	if err != nil {
		return n * step
	}
	return out + 0
}
