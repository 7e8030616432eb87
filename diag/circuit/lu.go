package circuit

import (
	"math"
	"math/bits"
)

// matrix is a square one, row after row, with a mask of what may be more than zero
// in each row: most of a circuit's is zero, and is never looked at. The answers are
// those of looking at everything, to the last bit.
type matrix struct {
	n     int
	words int // of 64 columns in the mask of a row
	a     []float64
	mask  []uint64
}

// size makes room for so many rows and columns.
func (m *matrix) size(n int) {
	m.n, m.words = n, (n+63)>>6
	m.a, m.mask = sized(m.a, n*n), sized(m.mask, n*m.words)
}

// mark says that an entry may be more than zero.
func (m *matrix) mark(i, j int32) { m.mask[int(i)*m.words+int(j>>6)] |= 1 << (j & 63) }

// row is the mask of a row.
func (m *matrix) row(i int) []uint64 { return m.mask[i*m.words : (i+1)*m.words] }

// has says whether an entry may be more than zero.
func (m *matrix) has(i, j int) bool { return m.mask[i*m.words+j>>6]>>(j&63)&1 != 0 }

// factor replaces the matrix by its factors, by Gaussian elimination with partial
// pivoting, and notes which row changed places with row k. It returns the first
// column without a pivot, or -1 if there is none.
func (m *matrix) factor(swap []int32) int {
	n := m.n
	for k := range n {
		swap[k] = int32(m.pivot(k))
		if v := m.a[k*n+k]; v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return k
		}
		for i := k + 1; i < n; i++ {
			if m.has(i, k) && m.a[i*n+k] != 0 {
				m.eliminate(i, k)
			}
		}
	}
	return -1
}

// pivot brings the row with the largest entry in column k up to row k; the first
// of equals, so that the same input takes the same way.
func (m *matrix) pivot(k int) int {
	n, p := m.n, k
	most := math.Abs(m.a[k*n+k])
	for i := k + 1; i < n; i++ {
		if !m.has(i, k) {
			continue
		}
		if v := math.Abs(m.a[i*n+k]); v > most {
			most, p = v, i
		}
	}
	if p != k {
		up, down := m.a[k*n:k*n+n], m.a[p*n:p*n+n]
		for j := range up {
			up[j], down[j] = down[j], up[j]
		}
		upper, lower := m.row(k), m.row(p)
		for j := range upper {
			upper[j], lower[j] = lower[j], upper[j]
		}
	}
	return p
}

// eliminate takes row k out of row i.
func (m *matrix) eliminate(i, k int) {
	from, row := m.a[k*m.n:(k+1)*m.n], m.a[i*m.n:(i+1)*m.n]
	f := row[k] / from[k]
	row[k] = f
	mask := m.row(i)
	for w, all := range m.row(k) {
		all = after(all, w, k)
		mask[w] |= all
		for ; all != 0; all &= all - 1 {
			j := w<<6 + bits.TrailingZeros64(all)
			row[j] -= f * from[j]
		}
	}
}

// after is what a word of a mask holds of the columns after k.
func after(word uint64, w, k int) uint64 {
	switch first := k + 1 - w<<6; {
	case first <= 0:
		return word
	case first >= 64:
		return 0
	default:
		return word &^ (1<<first - 1)
	}
}

// factors are a factorised matrix without its zeros. The entries of row i below
// the diagonal begin at from[2*i], and the diagonal with those above at from[2*i+1].
type factors struct {
	swap   []int32
	from   []int32
	column []int32
	value  []float64
}

// pack keeps the factors that m has become.
func (f *factors) pack(m *matrix) {
	count := 0
	for _, word := range m.mask {
		count += bits.OnesCount64(word)
	}
	if cap(f.value) < count {
		f.value, f.column = make([]float64, 0, count), make([]int32, 0, count)
	}
	if cap(f.from) < 2*m.n+1 {
		f.from = make([]int32, 0, 2*m.n+1)
	}
	f.from, f.column, f.value = f.from[:0], f.column[:0], f.value[:0]
	for i := range m.n {
		f.from = append(f.from, int32(len(f.value)))
		diagonal := int32(-1)
		for w, all := range m.row(i) {
			for ; all != 0; all &= all - 1 {
				j := w<<6 + bits.TrailingZeros64(all)
				if j == i {
					diagonal = int32(len(f.value))
				}
				f.column, f.value = append(f.column, int32(j)), append(f.value, m.a[i*m.n+j])
			}
		}
		f.from = append(f.from, diagonal)
	}
	f.from = append(f.from, int32(len(f.value)))
}

// solve replaces b by the solution for b.
func (f *factors) solve(b []float64) {
	for k, p := range f.swap {
		b[k], b[p] = b[p], b[k]
	}
	for i := range f.swap {
		s := b[i]
		low, high := f.from[2*i], f.from[2*i+1]
		value := f.value[low:high]
		for k, j := range f.column[low:high] {
			s -= value[k] * b[j]
		}
		b[i] = s
	}
	for i := len(f.swap) - 1; i >= 0; i-- {
		s := b[i]
		low, high := f.from[2*i+1], f.from[2*i+2]
		value, column := f.value[low:high], f.column[low:high]
		for k := 1; k < len(column); k++ {
			s -= value[k] * b[column[k]]
		}
		b[i] = s / value[0]
	}
}
