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
func (c *Circuit) Solve() (*Solution, error) { return c.SolveIn(&Room{}) }

// SolveIn is Solve with memory for what it needs on the way.
func (c *Circuit) SolveIn(room *Room) (*Solution, error) {
	s := &Solution{}
	cycle, err := c.settle(c.start(room.state[:0]), nil, nil, room, s)
	if err != nil {
		return nil, err
	}
	s.Phases = closedFirst(cycle)
	return s, nil
}

// settle solves and updates the states until they rest or repeat, and gives the
// phases that repeat; they are the caller's. from are the points that the search
// begins with, and more is a link besides those of the circuit; both may be nil.
func (c *Circuit) settle(state []bool, from []point, more *link, room *Room, s *Solution) ([]*Phase, error) {
	room.state = state
	defer func() { room.seen = room.seen[:0] }()
	for range rounds {
		p := room.phase(c, room.state)
		room.seen = append(room.seen, p)
		if err := c.phase(p, from, more, room, s); err != nil {
			room.release(room.seen...)
			return nil, err
		}
		room.state, from = c.next(room.state[:0], p), p.points
		if again := slices.IndexFunc(room.seen, func(q *Phase) bool { return slices.Equal(q.state, room.state) }); again >= 0 {
			room.release(room.seen[:again]...)
			return room.seen[again:], nil
		}
	}
	room.release(room.seen...)
	return nil, &NoAnswer{Node: c.reference}
}

// phase solves the circuit in one state.
func (c *Circuit) phase(p *Phase, from []point, more *link, room *Room, s *Solution) error {
	if err := c.agree(p.state); err != nil {
		return err
	}
	p.rest()
	for i := range from {
		if d := &c.devices[i]; !p.asleep(d) && (d.kind != supply || from[i].at != blocking) {
			p.points[i] = d.tangent(from[i].at)
		}
	}
	n, err := p.newton(c.straight(p.state, more, room), room)
	s.Iterations += n
	if p.noisy {
		s.Noisy++
	}
	return err
}

// straight is the equations at rest without the devices.
func (c *Circuit) straight(state []bool, more *link, room *Room) *system {
	base := room.system(c)
	c.fill(base, state, more)
	for i := range c.windings {
		base.enter(&c.windings[i].link)
	}
	return base
}

// fill puts everything into the equations that a state leaves straight, but for
// windings and capacitors.
func (c *Circuit) fill(s *system, state []bool, more *link) {
	s.empty()
	clear(s.b)
	for i := range int32(len(c.nodes)) {
		s.put(i, i, least)
	}
	for i := range c.links {
		s.enter(&c.links[i])
	}
	if more != nil {
		s.enter(more)
	}
	for i := range c.contacts {
		l := c.contacts[i].now(state[i])
		s.enter(&l)
	}
}

// closedFirst turns a cycle so that it begins with the first of the phases that
// have the most contacts closed.
func closedFirst(cycle []*Phase) []*Phase {
	begin := mostClosed(cycle)
	return slices.Concat(cycle[begin:], cycle[:begin])
}

// mostClosed is the place of the first of the phases with the most contacts closed.
func mostClosed(cycle []*Phase) int {
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
	return begin
}
