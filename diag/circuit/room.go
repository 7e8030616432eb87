package circuit

// Room is memory that solving one circuit after the other uses again and again. It
// holds no answers: with any Room, or without one, they are the same. One Room is
// for one goroutine; the zero Room is ready.
type Room struct {
	all   []float64 // behind a system
	state []bool    // what follows from a solution, until a phase is made for it
	seen  []*Phase
	spare []*Phase // that no solution kept
}

// system is the equations of a circuit, empty of everything. It holds until the
// next one is asked for.
func (r *Room) system(c *Circuit) system {
	n := int(c.size)
	if len(r.all) < n*n+n {
		r.all = make([]float64, n*n+n)
	}
	return system{n: n, a: r.all[:n*n], b: r.all[n*n : n*n+n]}
}

// phase is a phase of a circuit in a state, of which it keeps a copy.
func (r *Room) phase(c *Circuit, state []bool) *Phase {
	n, d := int(c.size), len(c.devices)
	p := r.used()
	if cap(p.room) < n*n+n+d {
		p.room = make([]float64, n*n+n+d)
	}
	if cap(p.points) < d {
		p.points = make([]point, d)
	}
	if cap(p.m.swap) < n {
		p.m.swap = make([]int32, n)
	}
	all := p.room[:n*n+n+d]
	*p = Phase{
		c: c, state: append(p.state[:0], state...), near: same, points: p.points[:d], room: p.room,
		m: lu{n: n, a: all[:n*n], swap: p.m.swap[:n]},
		x: all[n*n : n*n+n], want: all[n*n+n:],
	}
	return p
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
