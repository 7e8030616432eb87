package circuit

// Room is memory that solving one circuit after the other uses again and again. It
// holds no answers: with any Room, or without one, they are the same. One Room is
// for one goroutine; the zero Room is ready.
type Room struct {
	base, step system
	state      []bool // what follows from a solution, until a phase is made for it
	seen       []*Phase
	spare      []*Phase // that no solution kept
	circuits   []*Circuit
	probed     probed
}

// probed is what a phase of a solution gave last between two nodes: meters of
// several resistances are held there one after the other.
type probed struct {
	p    *Phase
	a, b int32
	y    []float64
}

// unit is that of a phase of a solution, which never changes again.
func (r *Room) unit(p *Phase, a, b int32) []float64 {
	if last := &r.probed; last.p != p || last.a != a || last.b != b {
		*last = probed{p, a, b, p.unit(last.y, a, b)}
	}
	return r.probed.y
}

// system is room for the equations of a circuit. It holds until the next one is
// asked for.
func (r *Room) system(c *Circuit) *system {
	r.base.size(int(c.size))
	return &r.base
}

// work is a copy of the equations' matrix, to be factored.
func (r *Room) work(base *system) *system {
	r.step.matrix.size(base.n)
	copy(r.step.a, base.a)
	copy(r.step.across, base.across)
	copy(r.step.down, base.down)
	return &r.step
}

// phase is a phase of a circuit in a state, of which it keeps a copy.
func (r *Room) phase(c *Circuit, state []bool) *Phase {
	n, d := int(c.size), len(c.devices)
	p := r.used()
	p.room = sized(p.room, n+2*d)
	*p = Phase{
		c: c, state: append(p.state[:0], state...), near: same, points: sized(p.points, d),
		room: p.room, x: p.room[:n], want: p.room[n : n+d], slopes: p.room[n+d:], m: p.m,
	}
	p.m.swap = sized(p.m.swap, n)
	return p
}

// sized is a slice of that length, of what there was if it is long enough. What
// it holds is anything.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// used is a phase that nobody needs any more, or a fresh one.
func (r *Room) used() *Phase {
	last := len(r.spare) - 1
	if last < 0 {
		return &Phase{}
	}
	p := r.spare[last]
	r.spare = r.spare[:last]
	return p
}

// release takes back phases that nobody asks again.
func (r *Room) release(phases ...*Phase) { r.spare = append(r.spare, phases...) }

// circuit is an empty one that shares what has been numbered with another.
func (r *Room) circuit(like *Circuit) *Circuit {
	last := len(r.circuits) - 1
	if last < 0 {
		return &Circuit{
			plan: like.plan, again: true, refs: make([]ref, 0, len(like.refs)),
			links: make([]link, 0, len(like.links)), contacts: make([]contact, 0, len(like.contacts)), latches: make([]latch, 0, len(like.latches)),
			devices: make([]device, 0, len(like.devices)), supplies: make([]int32, 0, len(like.supplies)),
			windings: make([]winding, 0, len(like.windings)), caps: make([]capacitor, 0, len(like.caps)),
		}
	}
	c := r.circuits[last]
	r.circuits = r.circuits[:last]
	*c = Circuit{
		plan: like.plan, again: true, refs: c.refs[:0], links: c.links[:0], contacts: c.contacts[:0], latches: c.latches[:0],
		devices: c.devices[:0], supplies: c.supplies[:0], windings: c.windings[:0], caps: c.caps[:0],
	}
	return c
}

// Reuse takes back a solution that nobody asks again: what it stands in serves for
// the next ones.
func (r *Room) Reuse(s *Solution) {
	r.release(s.Phases...)
	r.probed.p, s.Phases = nil, nil
}

// ReuseCircuit takes back a circuit that nobody solves again, with all that came of
// it. One that New made stays as it is, as others may be made after it.
func (r *Room) ReuseCircuit(c *Circuit) {
	if c.again {
		r.circuits = append(r.circuits, c)
	}
}
