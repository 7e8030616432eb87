package virtual

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestUniformNumbersAreEvenAndNamed(t *testing.T) {
	const n = 20000
	var tenths [10]int
	for i := range n {
		tenths[int(10*newChance(1, i).uniform("value", "charge"))]++
	}
	for _, k := range tenths {
		require.InDelta(t, n/10, k, 200) // five standard deviations of a binomial count
	}
	c := newChance(1, 1)
	require.Equal(t, c.uniform("value", "charge"), newChance(1, 1).uniform("value", "charge"))
	require.NotEqual(t, c.uniform("value", "charge"), c.uniform("part", "charge"))
	require.NotEqual(t, c.uniform("value", "charge"), c.uniform("value", "charged"))
}

func TestTriangularStaysWithinAndKeepsItsMode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.Float64Range(-10, 10).Draw(t, "from")
		to := from + rapid.Float64Range(0, 10).Draw(t, "width")
		usual := from + rapid.Float64Range(0, 1).Draw(t, "mode")*(to-from)
		u := rapid.Float64Range(0, 0.999).Draw(t, "u")
		v := triangular(u, from, usual, to)
		require.GreaterOrEqual(t, v, from-1e-9)
		require.LessOrEqual(t, v, to+1e-9)
	})
	// The share below the mode is the mode's share of the width.
	require.InDelta(t, 2, triangular(1.0/3, 1, 2, 4), 1e-12)
	require.Equal(t, 5.0, triangular(0.3, 5, 5, 5))
}

func TestSeverityByRatio(t *testing.T) {
	require.InDelta(t, 0.1, between(0.5, 0.01, 1, true), 1e-12, "the geometric middle")
	require.InDelta(t, 0.505, between(0.5, 0.01, 1, false), 1e-12)
	require.Zero(t, between(0.5, 0, 0, true))
}

func TestByWeight(t *testing.T) {
	require.Equal(t, 0, byWeight(0.74, []float64{3, 1}))
	require.Equal(t, 1, byWeight(0.76, []float64{3, 1}))
	require.Equal(t, 1, byWeight(0, []float64{0, 1}))
}
