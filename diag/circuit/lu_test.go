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
		m := lu{n: n, a: append([]float64(nil), a...), swap: make([]int32, n)}
		require.Equal(t, -1, m.factor())
		m.solve(b)
		for i := range b {
			require.InDelta(t, want[i], b[i], 1e-9*(1+math.Abs(want[i])))
		}
	})
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
		m := lu{n: 2, a: c.a, swap: make([]int32, 2)}
		require.Equal(t, c.want, m.factor(), "%v", c.a)
	}
}
