package circuit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Shapes of peak 1, by their integrals. A public meter manual's table of waveforms
// has the true RMS of the half and the full wave at 0.386 and 0.308, once its peak
// of 2 and of 1.414 is divided out; a sine that is cut at 90 degrees reads 29 % low
// on an average-responding meter, and a battery 2.22 times its volts on a cheap
// alternating range one way round and nothing the other.
func TestWhatMetersShowOfIdealShapes(t *testing.T) {
	sine := func(x float64) float64 { return math.Sin(2 * math.Pi * x) }
	for name, c := range map[string]struct {
		shape func(x float64) float64
		// mean, average, true, rms, cheap, cheap swapped
		want [6]float64
	}{
		"sine":      {sine, [6]float64{0, .7071, .7071, .7071, .7071, .7071}},
		"half-wave": {func(x float64) float64 { return max(sine(x), 0) }, [6]float64{.3183, .3897, .3856, .5, .7071, 0}},
		"full-wave": {func(x float64) float64 { return math.Abs(sine(x)) }, [6]float64{.6366, .2977, .3078, .7071, 1.4142, 0}},
		"direct":    {func(float64) float64 { return 1 }, [6]float64{1, 0, 0, 1, 2.2214, 0}},
		"cut at 90 degrees": {func(x float64) float64 {
			if math.Mod(x, .5) < .25 {
				return 0
			}
			return sine(x)
		}, [6]float64{0, .3536, .5, .5, .3536, .3536}},
		"clamped at half": {func(x float64) float64 { return min(max(sine(x), -.5), .5) }, [6]float64{0, .4650, .4422, .4422, .4650, .4650}},
	} {
		const points = 40000
		there, back := make([]float64, points), make([]float64, points)
		for i := range there {
			there[i] = c.shape((float64(i) + .5) / points)
			back[i] = -there[i]
		}
		w := figures(there)
		got := [6]float64{w.Mean, w.Average, w.True, w.RMS, w.Cheap, figures(back).Cheap}
		for i := range got {
			require.InDelta(t, c.want[i], got[i], 5.1e-5, "%s, %d", name, i)
		}
	}
	require.True(t, math.IsNaN(figures(nil).Mean))
}
