package circuit

import "math"

// system is a system of equations under construction.
type system struct {
	n int
	a []float64 // the matrix, row after row
	b []float64 // the right side
}

// conduct puts a conductance between two nodes.
func (s system) conduct(a, b int32, siemens float64) {
	n := int32(s.n)
	if a >= 0 {
		s.a[a*n+a] += siemens
	}
	if b >= 0 {
		s.a[b*n+b] += siemens
	}
	if a >= 0 && b >= 0 {
		s.a[a*n+b] -= siemens
		s.a[b*n+a] -= siemens
	}
}

// inject drives amps out of node b into node a.
func (s system) inject(a, b int32, amps float64) {
	if a >= 0 {
		s.b[a] += amps
	}
	if b >= 0 {
		s.b[b] -= amps
	}
}

// enter puts a link into the equations.
func (s system) enter(l *link) {
	if l.branch < 0 {
		if g := 1 / l.ohms; g > 0 {
			s.conduct(l.a, l.b, g)
			if l.volts != 0 {
				s.inject(l.a, l.b, g*l.volts)
			}
		}
		return
	}
	n, k := int32(s.n), l.branch
	if math.IsInf(l.ohms, 1) {
		s.a[k*n+k] = 1
		return
	}
	if l.a >= 0 {
		s.a[l.a*n+k]++
		s.a[k*n+l.a]++
	}
	if l.b >= 0 {
		s.a[l.b*n+k]--
		s.a[k*n+l.b]--
	}
	s.a[k*n+k] -= l.ohms
	s.b[k] += l.volts
}
