package circuit

import "math"

// dense is a small square matrix without zeros to speak of, row after row; then its
// factors.
type dense struct {
	n    int
	a    []float64
	swap []int
}

// factor replaces the matrix by its factors, by Gaussian elimination with partial
// pivoting. It returns false if there is no pivot.
func (m *dense) factor() bool {
	n := m.n
	for k := range n {
		p, most := k, math.Abs(m.a[k*n+k])
		for i := k + 1; i < n; i++ {
			if v := math.Abs(m.a[i*n+k]); v > most {
				p, most = i, v
			}
		}
		if most == 0 || math.IsNaN(most) || math.IsInf(most, 0) {
			return false
		}
		up := m.a[k*n : (k+1)*n]
		if m.swap[k] = p; p != k {
			for j, v := range m.a[p*n : (p+1)*n] {
				m.a[p*n+j], up[j] = up[j], v
			}
		}
		for i := k + 1; i < n; i++ {
			row := m.a[i*n : (i+1)*n]
			if row[k] == 0 {
				continue
			}
			f := row[k] / up[k]
			row[k] = f
			for j := k + 1; j < n; j++ {
				row[j] -= f * up[j]
			}
		}
	}
	return true
}

// solve replaces b by the solution for b, once the matrix is factored.
func (m *dense) solve(b []float64) {
	n := m.n
	for k, p := range m.swap {
		b[k], b[p] = b[p], b[k]
	}
	for i := range n {
		row, s := m.a[i*n:(i+1)*n], b[i]
		for j := range i {
			s -= row[j] * b[j]
		}
		b[i] = s
	}
	for i := n - 1; i >= 0; i-- {
		row, s := m.a[i*n:(i+1)*n], b[i]
		for j := i + 1; j < n; j++ {
			s -= row[j] * b[j]
		}
		b[i] = s / row[i]
	}
}
