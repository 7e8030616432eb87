package circuit

import "math"

// system is a system of equations under construction.
type system struct {
	matrix
	b []float64 // the right side
}

// size makes room for so many unknowns.
func (s *system) size(n int) {
	s.matrix.size(n)
	s.b = sized(s.b, n)
}

// put adds to an entry of the matrix.
func (s *system) put(i, j int32, v float64) {
	s.a[int(i)*s.n+int(j)] += v
	s.mark(int(i), int(j))
}

// conduct puts a conductance between two nodes.
func (s *system) conduct(a, b int32, siemens float64) {
	if a >= 0 {
		s.put(a, a, siemens)
	}
	if b >= 0 {
		s.put(b, b, siemens)
	}
	if a >= 0 && b >= 0 {
		s.put(a, b, -siemens)
		s.put(b, a, -siemens)
	}
}

// inject drives amps out of node b into node a.
func (s *system) inject(a, b int32, amps float64) {
	if a >= 0 {
		s.b[a] += amps
	}
	if b >= 0 {
		s.b[b] -= amps
	}
}

// enter puts a link into the equations.
func (s *system) enter(l *link) {
	if l.branch < 0 {
		if g := 1 / l.ohms; g > 0 {
			s.conduct(l.a, l.b, g)
			if l.volts != 0 {
				s.inject(l.a, l.b, g*l.volts)
			}
		}
		return
	}
	k := l.branch
	if math.IsInf(l.ohms, 1) {
		s.put(k, k, 1)
		return
	}
	if l.a >= 0 {
		s.put(l.a, k, 1)
		s.put(k, l.a, 1)
	}
	if l.b >= 0 {
		s.put(l.b, k, -1)
		s.put(k, l.b, -1)
	}
	s.put(k, k, -l.ohms)
	s.b[k] += l.volts
}
