package circuit

import "math"

// Phase is one operating point. Unknown names give NaN or false. It is read-only
// and may be asked by several callers at once.
type Phase struct {
	c      *Circuit
	state  []bool
	points []point
	m      factors // of the last step
	x      []float64
	room   []float64 // behind x, want and slopes
	want   []float64 // scratch of the search
	// The factors are those of the slopes that the devices had, unless the equations
	// without devices have changed.
	factored bool
	slopes   []float64
	noisy    bool
	// In a run through time: currents this near are the same, and lamps keep
	// their resistance.
	near      float64
	filaments bool
}

// Volts of a node against the reference.
func (p *Phase) Volts(node string) float64 {
	k, have := p.c.numbers[node]
	if !have {
		return math.NaN()
	}
	return at(p.x, k)
}

// Across is the voltage of one node against another, without a meter.
func (p *Phase) Across(from, to string) float64 { return p.Volts(from) - p.Volts(to) }

// Amps through a part, from From to To, Plus to Minus, Anode to Cathode: a battery
// that gives current has it negative. For a relay it is the contact's; see CoilAmps.
func (p *Phase) Amps(part string) float64 {
	i, have := p.c.named[part]
	if !have {
		return math.NaN()
	}
	return p.amps(int(i))
}

// amps through the i-th part.
func (p *Phase) amps(i int) float64 {
	switch r := p.c.refs[i]; r.kind {
	case isLink:
		return p.c.links[r.at].amps(p.x)
	case isContact, isRelay:
		return p.c.through(int(r.at), p.state[r.at], p.x)
	case isDevice:
		d := &p.c.devices[r.at]
		return p.points[r.at].line(at(p.x, d.a) - at(p.x, d.b))
	case isWinding:
		return p.c.windings[r.at].amps(p.x)
	}
	return 0
}

// CoilAmps through a relay's coil, from CoilFrom to CoilTo.
func (p *Phase) CoilAmps(relay string) float64 {
	i, have := p.c.named[relay]
	if !have || p.c.refs[i].kind != isRelay {
		return math.NaN()
	}
	return p.c.links[p.c.refs[i].coil].amps(p.x)
}

// Speed of a motor at the armature, in rad/s.
func (p *Phase) Speed(name string) float64 {
	i, have := p.c.named[name]
	if !have || p.c.refs[i].kind != isDevice || p.c.devices[p.c.refs[i].at].kind != motor {
		return math.NaN()
	}
	return p.c.devices[p.c.refs[i].at].speed(p.amps(int(i)))
}

// Closed says whether a relay's contact is closed.
func (p *Phase) Closed(relay string) bool {
	is, closed := p.contact(relay, func(part Part) bool { _, ok := part.(Relay); return ok })
	return is && closed
}

// Blown says whether a fuse is open.
func (p *Phase) Blown(fuse string) bool {
	is, closed := p.contact(fuse, func(part Part) bool { _, ok := part.(Fuse); return ok })
	return is && !closed
}

// Tripped says whether electronics are open.
func (p *Phase) Tripped(electronics string) bool {
	is, closed := p.contact(electronics, func(part Part) bool { _, ok := part.(Electronics); return ok })
	return is && !closed
}

// contact is the state of a part that is of a kind.
func (p *Phase) contact(name string, of func(Part) bool) (is, closed bool) {
	i, have := p.c.named[name]
	if !have || !of(p.c.parts[i]) {
		return false, false
	}
	return true, p.state[p.c.refs[i].at]
}
