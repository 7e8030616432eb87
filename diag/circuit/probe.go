package circuit

import "math"

// Thevenin is what the two nodes look like from outside, linearised: the volts
// between them with nothing there, and the ohms behind those volts.
func (p *Phase) Thevenin(from, to string) (volts, ohms float64) {
	a, b, have := p.pair(from, to)
	if !have {
		return math.NaN(), math.NaN()
	}
	y := p.unit(nil, a, b)
	return at(p.x, a) - at(p.x, b), at(y, a) - at(y, b)
}

func (p *Phase) pair(from, to string) (a, b int32, have bool) {
	a, haveA := p.c.numbers[from]
	b, haveB := p.c.numbers[to]
	return a, b, haveA && haveB
}

// unit is how all unknowns move when one ampere is driven from b into a. It stands
// in y if that is long enough.
func (p *Phase) unit(y []float64, a, b int32) []float64 {
	y = sized(y, len(p.x))
	clear(y)
	if a >= 0 {
		y[a]++
	}
	if b >= 0 {
		y[b]--
	}
	p.m.solve(y)
	return y
}

// Metered is what a voltmeter of that input resistance shows, as part of the
// circuit, contacts standing as they do. Where the meter bends what a diode,
// lamp, motor or supply does, the circuit is solved anew with it.
func (p *Phase) Metered(red, black string, input float64) float64 {
	return p.MeteredIn(&Room{}, red, black, input)
}

// MeteredIn is Metered with memory for what it needs on the way.
func (p *Phase) MeteredIn(room *Room, red, black string, input float64) float64 {
	a, b, have := p.pair(red, black)
	if !have || !(input > 0) {
		return math.NaN()
	}
	y := room.unit(p, a, b)
	open, behind := at(p.x, a)-at(p.x, b), at(y, a)-at(y, b)
	shown := open
	if !math.IsInf(input, 1) {
		shown = open * input / (input + behind)
	}
	if p.straight(y, -shown/input) {
		return shown
	}
	return p.loaded(room, a, b, input)
}

// straight says whether all devices keep to their tangents when the unknowns move
// by amps times y.
func (p *Phase) straight(y []float64, amps float64) bool {
	for i := range p.points {
		d := &p.c.devices[i]
		v := at(p.x, d.a) - at(p.x, d.b) + amps*(at(y, d.a)-at(y, d.b))
		if good, _ := d.follow(&p.points[i], v, p.near, p.asleep(d)); !good {
			return false
		}
	}
	return true
}

// loaded solves the phase anew with a resistor between two nodes.
func (p *Phase) loaded(room *Room, a, b int32, ohms float64) float64 {
	base := p.c.straight(p.state, nil, room)
	base.conduct(a, b, 1/ohms)
	q := room.phase(p.c, p.state)
	defer room.release(q)
	copy(q.points, p.points)
	if _, err := q.newton(base, room); err != nil {
		return math.NaN()
	}
	return at(q.x, a) - at(q.x, b)
}
