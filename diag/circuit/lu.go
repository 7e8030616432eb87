package circuit

import (
	"math"
	"math/bits"
)

// matrix is a square one, row after row, with masks of what may be other than zero
// in each row and in each column: most of a circuit's is zero, and is never looked
// at. The answers are those of looking at everything, to the last bit.
type matrix struct {
	n      int
	words  int // of 64 places in a mask
	a      []float64
	across []uint64 // the masks of the rows
	down   []uint64 // the masks of the columns
	rows   []int32  // scratch: the rows that have something in a column
}

// size makes room for so many rows and columns.
func (m *matrix) size(n int) {
	m.n, m.words = n, (n+63)>>6
	m.a, m.across, m.down = sized(m.a, n*n), sized(m.across, n*m.words), sized(m.down, n*m.words)
}

// empty makes everything zero.
func (m *matrix) empty() {
	clear(m.a)
	clear(m.across)
	clear(m.down)
}

// mark says that an entry may be other than zero.
func (m *matrix) mark(i, j int) {
	m.across[i*m.words+j>>6] |= 1 << (j & 63)
	m.down[j*m.words+i>>6] |= 1 << (i & 63)
}

// row is the mask of a row.
func (m *matrix) row(i int) []uint64 { return m.across[i*m.words : (i+1)*m.words] }

// factor replaces the matrix by its factors, by Gaussian elimination with partial
// pivoting, and notes which row changed places with row k. It returns the first
// column without a pivot, or -1 if there is none.
func (m *matrix) factor(swap []int32) int {
	n := m.n
	for k := range n {
		m.under(k)
		p := m.pivot(k)
		swap[k] = int32(p)
		if p != k {
			m.swap(k, p)
		}
		if v := m.a[k*n+k]; v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return k
		}
		for _, i := range m.rows {
			if m.a[int(i)*n+k] != 0 {
				m.eliminate(int(i), k)
			}
		}
	}
	return -1
}

// under lists the rows below k that may have something in its column.
func (m *matrix) under(k int) {
	m.rows = m.rows[:0]
	for w, all := range m.down[k*m.words : (k+1)*m.words] {
		for all = after(all, w, k); all != 0; all &= all - 1 {
			m.rows = append(m.rows, int32(w<<6+bits.TrailingZeros64(all)))
		}
	}
}

// pivot is the row with the largest entry in column k, from row k on; the first of
// equals, so that the same input takes the same way.
func (m *matrix) pivot(k int) int {
	p, most := k, math.Abs(m.a[k*m.n+k])
	for _, i := range m.rows {
		if v := math.Abs(m.a[int(i)*m.n+k]); v > most {
			most, p = v, int(i)
		}
	}
	return p
}

// swap makes two rows change places.
func (m *matrix) swap(k, p int) {
	up, low := m.a[k*m.n:(k+1)*m.n], m.a[p*m.n:(p+1)*m.n]
	for j := range up {
		up[j], low[j] = low[j], up[j]
	}
	upper, lower := m.row(k), m.row(p)
	for w := range upper {
		for odd := upper[w] ^ lower[w]; odd != 0; odd &= odd - 1 {
			column := (w<<6 + bits.TrailingZeros64(odd)) * m.words
			m.down[column+k>>6] ^= 1 << (k & 63)
			m.down[column+p>>6] ^= 1 << (p & 63)
		}
		upper[w], lower[w] = lower[w], upper[w]
	}
}

// eliminate takes row k out of row i.
func (m *matrix) eliminate(i, k int) {
	from, row := m.a[k*m.n:(k+1)*m.n], m.a[i*m.n:(i+1)*m.n]
	f := row[k] / from[k]
	row[k] = f
	mask := m.row(i)
	for w, all := range m.row(k) {
		all = after(all, w, k)
		for fresh := all &^ mask[w]; fresh != 0; fresh &= fresh - 1 {
			m.down[(w<<6+bits.TrailingZeros64(fresh))*m.words+i>>6] |= 1 << (i & 63)
		}
		mask[w] |= all
		for ; all != 0; all &= all - 1 {
			j := w<<6 + bits.TrailingZeros64(all)
			row[j] -= f * from[j]
		}
	}
}

// after is what a word of a mask holds of the places after k.
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
	for _, word := range m.across {
		count += bits.OnesCount64(word)
	}
	f.from, f.column, f.value = sized(f.from, 2*m.n+1), sized(f.column, count), sized(f.value, count)
	at := 0
	for i := range m.n {
		f.from[2*i] = int32(at)
		row := m.a[i*m.n : (i+1)*m.n]
		for w, all := range m.row(i) {
			for ; all != 0; all &= all - 1 {
				j := w<<6 + bits.TrailingZeros64(all)
				if j == i {
					f.from[2*i+1] = int32(at)
				}
				f.column[at], f.value[at] = int32(j), row[j]
				at++
			}
		}
	}
	f.from[2*m.n] = int32(at)
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
