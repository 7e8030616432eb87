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
	m = m.or(OhmMeter{Volts: 2.8, Ohms: 2200, Full: 60e6})
	volts, amps, live, err := c.driven(red, black, m)
	shown := OhmsShown{Value: volts / amps, Live: live}
	if !(amps > 0 && shown.Value >= 0) {
		shown.Value = math.Inf(1)
	}
	shown.Over = shown.Value > m.Full
	return shown, err
}

// DiodeTest is the forward volts the meter shows from red to black.
func (c *Circuit) DiodeTest(red, black string, m OhmMeter) (OhmsShown, error) {
	m = m.or(OhmMeter{Volts: 2.8, Ohms: 2800, Full: 2})
	volts, _, live, err := c.driven(red, black, m)
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
// jacks and the amps out of the red one.
func (c *Circuit) driven(red, black string, m OhmMeter) (volts, amps float64, live bool, err error) {
	for _, node := range []string{red, black} {
		if _, have := c.numbers[node]; !have {
			return 0, 0, false, &BadPart{Part: "meter", Why: "there is no node " + node + " to probe; name one of the circuit's nodes"}
		}
	}
	before, err := c.Solve()
	if err != nil {
		return 0, 0, false, err
	}
	live = math.Abs(before.Phases[0].Metered(red, black, 10e6)) > alive
	source := EMF{Name: c.free("meter"), Plus: red, Minus: black, Volts: m.Volts, Ohms: m.Ohms + m.Leads}
	with, err := New(c.reference, append(c.parts[:len(c.parts):len(c.parts)], source)...)
	if err != nil {
		return 0, 0, live, err
	}
	s, err := with.solveFrom(before.Phases[0])
	if err != nil {
		return 0, 0, live, err
	}
	amps = -s.Phases[0].Amps(source.Name)
	return m.Volts - amps*m.Ohms, amps, live, nil
}

// free is a name that no part has.
func (c *Circuit) free(name string) string {
	for {
		if _, taken := c.named[name]; !taken {
			return name
		}
		name += "'"
	}
}
