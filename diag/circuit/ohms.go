package circuit

import "math"

// OhmMeter is a meter's own source for ohms, continuity and diodes. Zero Volts,
// Ohms and Full mean 2.8 V, 2.2 kohm (2.8 kohm for diodes: 1 mA into a short) and
// 60 Mohm (2 V for diodes), as common hand-held meters have them: common
// practice, no source.
type OhmMeter struct {
	Volts, Ohms float64 // 2.8 V behind 2.2 kohm for ohms, 2.8 kohm for diodes
	Leads       float64 // ohm of both leads, 0.2
	Full        float64 // full scale in ohm (or V for a diode test); above it: over range
}

// OhmsShown is what an ohmmeter displays.
type OhmsShown struct {
	Value float64 // ohm; V for a diode test
	Over  bool
	Live  bool // more than 50 mV stood there before the meter's source was on
}

// alive is what must stand between the probes, on a voltmeter of 10 Mohm, for
// ohms to be called live.
const alive = 0.05

// Ohms is what the meter shows between two nodes of the circuit as it stands:
// its volts by its amps, leads included. A live circuit may drive the meter
// backwards; it is over range then, with an infinite value.
func (c *Circuit) Ohms(red, black string, m OhmMeter) (OhmsShown, error) {
	return c.probed(red, black, m, (*Phase).Ohms)
}

// DiodeTest is the forward volts the meter shows from red to black.
func (c *Circuit) DiodeTest(red, black string, m OhmMeter) (OhmsShown, error) {
	return c.probed(red, black, m, (*Phase).DiodeTest)
}

func (c *Circuit) probed(red, black string, m OhmMeter, ask func(*Phase, string, string, OhmMeter, *Room) (OhmsShown, error)) (OhmsShown, error) {
	room := &Room{}
	before, err := c.SolveIn(room)
	if err != nil {
		return OhmsShown{}, err
	}
	return ask(before.Phases[0], red, black, m, room)
}

// Ohms is what Circuit.Ohms gives, where the first phase of the circuit's solution
// is known already.
func (p *Phase) Ohms(red, black string, m OhmMeter, room *Room) (OhmsShown, error) {
	m = m.or(OhmMeter{Volts: 2.8, Ohms: 2200, Full: 60e6})
	volts, amps, live, err := p.driven(red, black, m, room)
	shown := OhmsShown{Value: volts / amps, Live: live}
	if !(amps > 0 && shown.Value >= 0) {
		shown.Value = math.Inf(1)
	}
	shown.Over = shown.Value > m.Full
	return shown, err
}

// DiodeTest is what Circuit.DiodeTest gives, where the first phase of the
// circuit's solution is known already.
func (p *Phase) DiodeTest(red, black string, m OhmMeter, room *Room) (OhmsShown, error) {
	m = m.or(OhmMeter{Volts: 2.8, Ohms: 2800, Full: 2})
	volts, _, live, err := p.driven(red, black, m, room)
	return OhmsShown{Value: volts, Over: volts > m.Full, Live: live}, err
}

// or fills in what was left out.
func (m OhmMeter) or(usual OhmMeter) OhmMeter {
	if m.Volts == 0 {
		m.Volts = usual.Volts
	}
	if m.Ohms == 0 {
		m.Ohms = usual.Ohms
	}
	if m.Full == 0 {
		m.Full = usual.Full
	}
	return m
}

// driven puts the meter's source between two nodes and returns the volts at its
// jacks and the amps out of the red one. Contacts, fuses and electronics begin as
// they are in the phase, and the search begins at its volts.
func (p *Phase) driven(red, black string, m OhmMeter, room *Room) (volts, amps float64, live bool, err error) {
	for _, node := range []string{red, black} {
		if _, have := p.c.numbers[node]; !have {
			return 0, 0, false, &BadPart{Part: "meter", Why: "there is no node " + node + " to probe; name one of the circuit's nodes"}
		}
	}
	if why := first(finite("Volts", m.Volts), resistance("Ohms", m.Ohms+m.Leads)); why != "" {
		return 0, 0, false, &BadPart{Part: "meter", Why: why}
	}
	live = math.Abs(p.MeteredIn(room, red, black, 10e6)) > alive
	source := link{a: p.c.numbers[red], b: p.c.numbers[black], branch: -1, volts: m.Volts, ohms: max(m.Ohms+m.Leads, direct)}
	state := append(room.state[:0], p.state...)
	for i := range p.c.latches {
		switch p.c.latches[i].kind {
		case weldedLatch:
			state[i] = true
		case stuckLatch:
			state[i] = false
		}
	}
	cycle, err := p.c.settle(state, p.points, &source, room, &Solution{})
	if err != nil {
		return 0, 0, live, err
	}
	amps = -source.amps(cycle[mostClosed(cycle)].x)
	room.release(cycle...)
	return m.Volts - amps*m.Ohms, amps, live, nil
}
