package circuit

import "math"

// Steady is Follow for a circuit that comes to repeat itself cycle after cycle: it
// looks for the start of a cycle that ends as it began, by Newton's method on what
// windings and capacitors remember, in place of waiting for it (Aprille and Trick,
// Steady-state analysis of nonlinear circuits with periodic inputs, Proceedings of
// the IEEE 60, 1972). Settle is how many cycles are gone through at most, and one
// cycle is kept whatever Keep says. There are no waves, and no error, if the
// circuit has not come to repeat itself by then, or has windings that have no
// common cycle.
func (c *Circuit) Steady(r Run) (*Waves, error) {
	r.Keep = 1
	if why := r.check(len(c.nodes) + len(c.parts)); why != "" {
		return nil, &BadPart{Part: "run", Why: why}
	}
	for i := range c.windings {
		if v := &c.windings[i]; math.Mod(v.hertz, r.Hertz) != 0 {
			return nil, nil
		}
	}
	return c.blow(func(state []bool) (*Waves, error) {
		w, err := newWalk(c, r, state)
		if err != nil {
			return nil, err
		}
		return newRound(w).settle()
	})
}

// How near a cycle has to end to where it began: by this share of the most that a
// store had in the cycle, and by this much of a volt or an ampere besides. It is
// the way that is left to the cycle that does, by Newton's method, not only the
// difference of two cycles, which for a store that is slow may be much less.
//
// A device that turns one step earlier or later moves a cycle's end by the step's
// own error. Where no start is left that this doesn't throw off again, it is looked
// for in vain, and a cycle that comes so near has to do.
const (
	nearShare   = 1e-4
	nearLeast   = 1e-6
	patient     = 12 // cycles
	thrownShare = 5e-4
)

// round goes through one cycle after the other, each from a start that it chooses.
type round struct {
	*walk
	stores []int     // that remember anything from one cycle to the next
	start  []float64 // of the cycle: the amps of windings, the volts of capacitors
	most   []float64 // in the cycle
	moved  []moved   // by each of start in turn, each link
	gone   []bool    // which of start no longer move anything
	way    []float64 // to a better start
	beyond []float64 // scratch: by each of start, what is summed is moved; nothing in the first place
	drop   []float64 // scratch: and the volts across each device
	matrix dense     // scratch
}

// moved is by how much what a store remembers is moved.
type moved struct{ amps, stored float64 }

// forgotten is so small a move, of an ampere or a volt for each one, that the rest
// of the cycle need not be asked what becomes of it: it only shows the way.
const forgotten = 1e-7

func newRound(w *walk) *round {
	s := &round{walk: w}
	for i := range w.links {
		if i < len(w.c.windings) && w.c.windings[i].stores() || i >= len(w.c.windings) && w.c.caps[i-len(w.c.windings)].stores() {
			s.stores = append(s.stores, i)
		}
	}
	n := len(s.stores)
	s.start, s.most, s.way = make([]float64, n), make([]float64, n), make([]float64, n)
	s.matrix = dense{n: n, a: make([]float64, n*n), swap: make([]int, n)}
	s.gone = make([]bool, n)
	s.moved, s.beyond, s.drop = make([]moved, len(w.links)*n), make([]float64, w.as.width*n), make([]float64, len(w.as.drop))
	return s
}

// settle goes from cycle to cycle until one ends as it began; nil if none does.
func (s *round) settle() (*Waves, error) {
	share := nearShare
	for cycle := range s.plan.Settle {
		if cycle == patient {
			share = thrownShare
		}
		if err := s.cycle(); err != nil {
			return nil, err
		}
		glowed := s.glow()
		s.aim()
		if s.near(share) && glowed <= share {
			return s.waves, nil
		}
		for k, i := range s.stores {
			s.start[k] += s.way[k]
			if *s.remembers(i) = s.start[k]; math.IsNaN(s.start[k]) || math.IsInf(s.start[k], 0) {
				return nil, nil
			}
		}
	}
	return nil, nil
}

// remembers is what a store carries over from one cycle to the next. A cycle begins
// with a step in halves, which look at nothing else.
func (w *walk) remembers(i int) *float64 {
	if i < len(w.c.windings) {
		return &w.amps[i]
	}
	return &w.stored[i]
}

// cycle goes through a cycle, and keeps it.
func (s *round) cycle() error {
	clear(s.most)
	clear(s.moved)
	clear(s.gone)
	for k, i := range s.stores {
		if m := &s.moved[k*len(s.links)+i]; i < len(s.c.windings) {
			m.amps = 1
		} else {
			m.stored = 1
		}
	}
	s.soft, s.waves.sums = true, s.waves.sums[:0]
	for k := range s.plan.Steps {
		if err := s.stride(k+1, s.follow); err != nil {
			return err
		}
		s.waves.keep(s.as)
		for k, i := range s.stores {
			s.most[k] = max(s.most[k], math.Abs(*s.remembers(i)))
		}
	}
	return nil
}

// follow is how a step passes on what each of start moves: the step's own equations
// for small differences.
func (s *round) follow(euler bool) {
	known := 1 + len(s.links)
	for k := range s.stores {
		if s.gone[k] {
			continue
		}
		beyond := s.as.row(s.beyond, k)
		for i := range s.links {
			beyond[1+i] = s.driven(i, k, euler)
		}
		for i := range s.drop {
			s.drop[i] = dot(s.as.row(s.as.volts, i)[:known], beyond[:known])
		}
		s.as.tangent.solve(s.drop)
		for i, v := range s.drop {
			beyond[known+i] = v * (s.as.slopes[i] - nominal)
		}
		most := 0.0
		for i := range s.links {
			m := &s.moved[k*len(s.links)+i]
			m.amps = dot(s.as.row(s.as.amps, i), beyond)
			m.stored = dot(s.as.row(s.as.across, i), beyond) - s.own(i)*m.amps
			most = max(most, math.Abs(m.amps), math.Abs(m.stored))
		}
		s.gone[k] = most < forgotten
	}
}

// driven is by how much the source that stands for a store is moved; see drive.
func (s *round) driven(i, k int, euler bool) float64 {
	m, more := s.moved[k*len(s.links)+i], s.links[i].ohms-s.own(i)
	switch {
	case i < len(s.c.windings):
		if !s.c.windings[i].stores() {
			return 0
		}
		if euler {
			return -more * m.amps
		}
		return -more*m.amps - m.stored
	case !s.c.caps[i-len(s.c.windings)].stores():
		return 0
	case euler:
		return m.stored
	}
	return m.stored + more*m.amps
}

// own is the resistance in ohm of a winding or capacitor itself.
func (w *walk) own(i int) float64 {
	if i < len(w.c.windings) {
		return w.c.windings[i].ohms
	}
	return w.c.caps[i-len(w.c.windings)].ohms
}

// aim finds the way to a start that would come back to itself if every cycle moved
// as this one does; where there is none, to this one's end.
func (s *round) aim() {
	n := len(s.stores)
	for k, i := range s.stores {
		for j := range n {
			if m := s.moved[j*len(s.links)+i]; i < len(s.c.windings) {
				s.matrix.a[k*n+j] = -m.amps
			} else {
				s.matrix.a[k*n+j] = -m.stored
			}
		}
		s.matrix.a[k*n+k]++
		s.way[k] = *s.remembers(i) - s.start[k]
	}
	if s.matrix.factor() {
		s.matrix.solve(s.way)
	}
}

// near says whether the way left is too small to be seen.
func (s *round) near(share float64) bool {
	for k, way := range s.way {
		if !(math.Abs(way) <= share*s.most[k]+nearLeast) {
			return false
		}
	}
	return true
}
