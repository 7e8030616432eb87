package circuit

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Against Gauss-Jordan elimination in fractions, which rounds nothing. Partial
// pivoting is backward stable where each diagonal entry outweighs its row
// (Higham, Accuracy and Stability of Numerical Algorithms, 2nd ed., section 9.5).
func TestTheFactorsSolveAsFractionsDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		a, b := make([]float64, n*n), make([]float64, n)
		for i := range a {
			if rapid.Bool().Draw(t, "there") {
				a[i] = rapid.Float64Range(-1e3, 1e3).Draw(t, "a")
			}
		}
		// The diagonal is the largest of its row, as in a circuit of conductances.
		for i := range n {
			a[i*n+i] = 1
			for j := range n {
				if j != i {
					a[i*n+i] += math.Abs(a[i*n+j])
				}
			}
			b[i] = rapid.Float64Range(-1e3, 1e3).Draw(t, "b")
		}
		want := fractions(n, a, b)
		m, f := matrixOf(n, a), factors{swap: make([]int32, n)}
		require.Equal(t, -1, m.factor(f.swap))
		f.pack(m)
		f.solve(b)
		for i := range b {
			require.InDelta(t, want[i], b[i], 1e-9*(1+math.Abs(want[i])))
		}
	})
}

// A mask of several words, as a circuit of more than 64 unknowns has: what comes
// out is held against the equations.
func TestManyUnknownsSolve(t *testing.T) {
	const n = 150
	a, b := make([]float64, n*n), make([]float64, n)
	for i := range n {
		a[i*n+i], b[i] = 5, float64(i%7)
		a[i*n+(i*37+11)%n]--
		a[i*n+(i*5+64)%n] += 2
	}
	f, x := factors{swap: make([]int32, n)}, append([]float64(nil), b...)
	m := matrixOf(n, a)
	require.Equal(t, -1, m.factor(f.swap))
	f.pack(m)
	f.solve(x)
	for i := range n {
		sum := 0.0
		for j := range n {
			sum += a[i*n+j] * x[j]
		}
		require.InDelta(t, b[i], sum, 1e-9)
	}
}

// matrixOf is a matrix with its mask.
func matrixOf(n int, a []float64) *matrix {
	m := &matrix{}
	m.size(n)
	m.empty()
	for i, v := range a {
		m.a[i] = v
		if v != 0 {
			m.mark(i/n, i%n)
		}
	}
	return m
}

// fractions solves exactly.
func fractions(n int, a, b []float64) []float64 {
	rows := make([][]*big.Rat, n)
	for i := range rows {
		for _, v := range append(append([]float64(nil), a[i*n:i*n+n]...), b[i]) {
			rows[i] = append(rows[i], new(big.Rat).SetFloat64(v))
		}
	}
	for k := range n {
		for p := k; rows[k][k].Sign() == 0; p++ {
			rows[k], rows[p] = rows[p], rows[k]
		}
		for i := range n {
			if i == k || rows[i][k].Sign() == 0 {
				continue
			}
			f := new(big.Rat).Quo(rows[i][k], rows[k][k])
			for j := k; j <= n; j++ {
				rows[i][j] = new(big.Rat).Sub(rows[i][j], new(big.Rat).Mul(f, rows[k][j]))
			}
		}
	}
	x := make([]float64, n)
	for i := range x {
		x[i], _ = new(big.Rat).Quo(rows[i][n], rows[i][i]).Float64()
	}
	return x
}

func TestAMatrixWithoutAPivotNamesItsColumn(t *testing.T) {
	for _, c := range []struct {
		a    []float64
		want int
	}{
		{[]float64{0, 1, 0, 1}, 0},
		{[]float64{1, 2, 2, 4}, 1},
		{[]float64{math.NaN(), 1, 1, 1}, 0},
		{[]float64{math.Inf(1), 1, 1, 1}, 0},
		{[]float64{0, 1, 1, 0}, -1}, // rows change places
	} {
		require.Equal(t, c.want, matrixOf(2, c.a).factor(make([]int32, 2)), "%v", c.a)
	}
}
