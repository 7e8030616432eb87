package circuit

import "slices"

// Solution is where the circuit comes to rest: one phase, or, when relays chatter,
// the phases they go round in, the one with the most contacts closed first.
type Solution struct {
	Phases     []*Phase
	Iterations int // of Newton's method, in all
	Noisy      int // phases accepted although arithmetic moved them by up to 1 mV
}

// Chatters says whether relays go round for ever.
func (s *Solution) Chatters() bool { return len(s.Phases) > 1 }

// rounds is how many states are tried before the search is given up.
const rounds = 200

// Solve finds the direct-current operating point. Errors are *Contradiction
// (ideal sources that fight; it names a node) or *NoAnswer (Newton's method
// found none).
func (c *Circuit) Solve() (*Solution, error) { return c.settle(c.start(), nil) }

// solveFrom is Solve for a machine that stands as in phase p: contacts, fuses and
// electronics begin as they are there, and the search begins at its volts. p may
// be of another circuit with parts of the same kinds in the same order; if it is
// of a circuit of another build, it is as if Solve had been called.
func (c *Circuit) solveFrom(p *Phase) (*Solution, error) {
	if p == nil || len(p.state) != len(c.contacts)+len(c.supplies) || len(p.points) != len(c.devices) {
		return c.Solve()
	}
	for i := range c.devices {
		if c.devices[i].kind != p.c.devices[i].kind {
			return c.Solve()
		}
	}
	state := slices.Clone(p.state)
	for i := range c.latches {
		switch c.latches[i].kind {
		case weldedLatch:
			state[i] = true
		case stuckLatch:
			state[i] = false
		}
	}
	return c.settle(state, p.points)
}

// settle solves and updates the states until they rest or repeat.
func (c *Circuit) settle(state []bool, from []point) (*Solution, error) {
	s := &Solution{}
	base := c.newSystem()
	var seen []*Phase
	for range rounds {
		p, err := c.phase(state, from, base, s)
		if err != nil {
			return nil, err
		}
		seen = append(seen, p)
		state, from = c.next(state, p.x), p.points
		if again := slices.IndexFunc(seen, func(q *Phase) bool { return slices.Equal(q.state, state) }); again >= 0 {
			s.Phases = closedFirst(seen[again:])
			return s, nil
		}
	}
	return nil, &NoAnswer{Node: c.reference}
}

// phase solves the circuit in one state.
func (c *Circuit) phase(state []bool, from []point, base system, s *Solution) (*Phase, error) {
	if err := c.agree(state); err != nil {
		return nil, err
	}
	p := c.newPhase(state)
	p.rest()
	for i := range from {
		if d := &c.devices[i]; !p.asleep(d) && (d.kind != supply || from[i].at != blocking) {
			p.points[i] = d.tangent(from[i].at)
		}
	}
	c.fill(base, state)
	for i := range c.windings {
		base.enter(&c.windings[i].link)
	}
	n, err := p.newton(base)
	s.Iterations += n
	if p.noisy {
		s.Noisy++
	}
	return p, err
}

// fill puts everything into the equations that a state leaves straight, but for
// windings and capacitors.
func (c *Circuit) fill(s system, state []bool) {
	copy(s.a, c.base)
	copy(s.b, c.push)
	for i := range c.contacts {
		l := c.contacts[i].now(state[i])
		s.enter(&l)
	}
}

func (c *Circuit) newSystem() system {
	n := int(c.size)
	all := make([]float64, n*n+n)
	return system{n: n, a: all[:n*n], b: all[n*n:]}
}

func (c *Circuit) newPhase(state []bool) *Phase {
	n, d := int(c.size), len(c.devices)
	all := make([]float64, n*n+n+d)
	return &Phase{
		c: c, state: state, near: same, points: make([]point, d),
		m: lu{n: n, a: all[:n*n], swap: make([]int32, n)},
		x: all[n*n : n*n+n], want: all[n*n+n:],
	}
}

// closedFirst turns a cycle so that it begins with the first of the phases that
// have the most contacts closed.
func closedFirst(cycle []*Phase) []*Phase {
	begin, most := 0, -1
	for i, p := range cycle {
		closed := 0
		for _, s := range p.state {
			if s {
				closed++
			}
		}
		if closed > most {
			begin, most = i, closed
		}
	}
	return slices.Concat(cycle[begin:], cycle[:begin])
}
