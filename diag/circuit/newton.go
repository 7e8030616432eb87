package circuit

import "math"

// Limits of Newton's method. A circuit of parts that exist needs 3 to 15 steps.
const (
	patience = 100  // steps for one state
	gentle   = 25   // steps after which devices without limiting go half way
	noise    = 1e-3 // V: two answers this near are one, if no more can be had
)

// rest puts the devices of a phase where the search begins.
func (p *Phase) rest() {
	for i := range p.points {
		d := &p.c.devices[i]
		if p.asleep(d) {
			p.points[i] = d.tangent(blocking)
		} else {
			p.points[i] = d.rest()
		}
	}
}

func (p *Phase) asleep(d *device) bool {
	return d.sleeps >= 0 && !p.state[len(p.c.contacts)+int(d.sleeps)]
}

// newton solves a phase from the points that it has, given the equations
// without the devices. It returns the number of steps.
func (p *Phase) newton(base *system, room *Room) (int, error) {
	for step := 1; step < patience; step++ {
		if err := p.step(base, room); err != nil {
			return step, err
		}
		if p.settle(nil, step > gentle) {
			return step, nil
		}
	}
	return patience, p.lastStep(base, room)
}

// step solves the equations with the devices as they are linearised.
func (p *Phase) step(base *system, room *Room) error {
	if !p.factored || p.bent() {
		if err := p.factor(base, room); err != nil {
			return err
		}
	}
	s := system{b: p.x}
	copy(p.x, base.b)
	for i := range p.points {
		d, t := &p.c.devices[i], &p.points[i]
		s.inject(d.a, d.b, t.siemens*t.volts-t.amps)
	}
	p.m.solve(p.x)
	return nil
}

// bent says whether a device has another slope than when the matrix was factored.
// In time, each step begins with the slopes that the one before ended with.
func (p *Phase) bent() bool {
	for i := range p.points {
		if p.points[i].siemens != p.slopes[i] {
			return true
		}
	}
	return false
}

// factor makes the factors of the equations with the devices as they are.
func (p *Phase) factor(base *system, room *Room) error {
	s := room.work(base)
	for i := range p.points {
		d, t := &p.c.devices[i], &p.points[i]
		if p.slopes[i] = t.siemens; t.siemens != 0 {
			s.conduct(d.a, d.b, t.siemens)
		}
	}
	k := s.factor(p.m.swap)
	if p.factored = k < 0; !p.factored {
		return &NoAnswer{Node: p.c.unknownName(int32(k)), Off: math.NaN()}
	}
	p.m.pack(&s.matrix)
	return nil
}

// settle compares all devices with their tangents, at the volts across them or
// else at those of the unknowns. Where they differ the tangents move, and false is
// returned.
func (p *Phase) settle(drop []float64, gently bool) bool {
	settled := true
	for i := range p.points {
		d, t := &p.c.devices[i], &p.points[i]
		if p.filaments && d.kind == lamp {
			p.want[i] = t.at
			continue
		}
		var v float64
		if drop != nil {
			v = drop[i]
		} else {
			v = at(p.x, d.a) - at(p.x, d.b)
		}
		good, w := d.follow(t, v, p.near, p.asleep(d))
		settled = settled && good
		if gently && (d.kind == motor || d.kind == lamp) {
			w = (w + t.at) / 2
		}
		p.want[i] = w
	}
	if settled {
		return true
	}
	for i := range p.points {
		if p.want[i] != p.points[i].at {
			p.points[i] = p.c.devices[i].tangent(p.want[i])
		}
	}
	return false
}

// lastStep accepts what has come to rest but for the noise of arithmetic, and
// says what has not.
func (p *Phase) lastStep(base *system, room *Room) error {
	before := append([]float64(nil), p.x...)
	if err := p.step(base, room); err != nil {
		return err
	}
	worst, off := 0, -1.0
	for i := range p.c.nodes {
		if d := math.Abs(p.x[i] - before[i]); !(d <= off) {
			worst, off = i, d
		}
	}
	if off <= noise {
		p.noisy = true
		return nil
	}
	return &NoAnswer{Node: p.c.nodes[worst], Off: off}
}

// unknownName is the node that an unknown is about.
func (c *Circuit) unknownName(k int32) string {
	if int(k) < len(c.nodes) {
		return c.nodes[k]
	}
	for i := range c.links {
		if l := &c.links[i]; l.branch == k {
			return c.nodeName(l.a, l.b)
		}
	}
	for i := range c.contacts {
		if l := &c.contacts[i]; l.branch == k {
			return c.nodeName(l.a, l.b)
		}
	}
	for i := range c.windings {
		if l := &c.windings[i]; l.branch == k {
			return c.nodeName(l.a, l.b)
		}
	}
	return c.reference
}
