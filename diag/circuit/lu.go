package circuit

import "math"

// lu is a square matrix, row after row, that is factorised in place by Gaussian
// elimination with partial pivoting. Rows are skipped where they hold a zero,
// which most of them do in a circuit.
type lu struct {
	n    int
	a    []float64
	swap []int32 // row that changed places with row k
}

// factor replaces the matrix by its factors. It returns the first column without
// a pivot, or -1 if there is none.
func (m *lu) factor() int {
	n := m.n
	for k := range n {
		p := m.pivot(k)
		row := m.a[k*n : k*n+n]
		if row[k] == 0 || math.IsNaN(row[k]) || math.IsInf(row[k], 0) {
			return k
		}
		m.swap[k] = int32(p)
		m.eliminate(k, row[k:])
	}
	return -1
}

// pivot brings the row with the largest entry in column k up to row k; the first
// of equals, so that the same input takes the same way.
func (m *lu) pivot(k int) int {
	n, p := m.n, k
	most := math.Abs(m.a[k*n+k])
	for i := k + 1; i < n; i++ {
		if v := math.Abs(m.a[i*n+k]); v > most {
			most, p = v, i
		}
	}
	if p != k {
		up, down := m.a[k*n:k*n+n], m.a[p*n:p*n+n]
		for j := range up {
			up[j], down[j] = down[j], up[j]
		}
	}
	return p
}

// eliminate takes row k, given from its diagonal on, out of all rows below.
func (m *lu) eliminate(k int, from []float64) {
	n := m.n
	diagonal, rest := from[0], from[1:]
	for i := k + 1; i < n; i++ {
		at := i*n + k
		if m.a[at] == 0 {
			continue
		}
		f := m.a[at] / diagonal
		m.a[at] = f
		row := m.a[at+1 : i*n+n]
		row = row[:len(rest)]
		for j, v := range rest {
			row[j] -= f * v
		}
	}
}

// solve replaces b by the solution for b.
func (m *lu) solve(b []float64) {
	n := m.n
	b = b[:n]
	for k, p := range m.swap {
		b[k], b[p] = b[p], b[k]
	}
	for i := 1; i < n; i++ {
		row, s := m.a[i*n:i*n+i], b[i]
		for j, v := range row {
			s -= v * b[j]
		}
		b[i] = s
	}
	for i := n - 1; i >= 0; i-- {
		row, s := m.a[i*n+i:i*n+n], b[i]
		right := b[i:]
		for j := 1; j < len(row); j++ {
			s -= row[j] * right[j]
		}
		b[i] = s / row[0]
	}
}
