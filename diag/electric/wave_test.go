package electric

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWaveWorked(t *testing.T) {
	half := HalfWave(2)
	full := FullWave(math.Sqrt2)
	checkWorked(t, []worked{
		{"peak of 115 V", "TC 9-62 para 4-11", 162.6, 0.1, SinePeak(115)},
		{"half-wave mean of 115 V", "TC 9-62 para 4-11", 51.7, 0.1, HalfWaveMean(115)},
		{"average of 325 V", "textbook, electrical installation: 207 V", 207, 0.5, 2 * Sine(325).Above},
		{"RMS of 325 V", "textbook, electrical installation: 230 V", 230, 0.5, SineRMS(325)},
		{"half-wave true RMS", "waveform table of a meter leaflet", 0.771, 1e-3, half.ACTrueRMS()},
		{"half-wave average type", "integration; a leaflet prints 0.764", 0.7794, 1e-4, half.ACAverage()},
		{"half-wave DC", "waveform table of a meter leaflet", 0.636, 1e-3, half.DC()},
		{"full-wave true RMS", "waveform table of a meter leaflet", 0.435, 1e-3, full.ACTrueRMS()},
		{"full-wave average type", "waveform table of a meter leaflet", 0.421, 1e-3, full.ACAverage()},
		{"full-wave DC", "waveform table of a meter leaflet", 0.900, 1e-3, full.DC()},
		{"square average type", "second waveform table: 1.11 V of 1 V", 1.11, 1e-2, SquareWave(1).ACAverage()},
		{"triangle average type", "second waveform table: 0.555 V of 1 V", 0.555, 1e-3, Triangle(1).ACAverage()},
		{"triangle true RMS", "second waveform table: 0.577 V of 1 V", 0.577, 1e-3, Triangle(1).ACTrueRMS()},
		{"half-wave factor", "0.3183 x 1.4142", 0.4502, 1e-4, HalfWaveMean(1)},
		{"charging coil of 31 V", "the same factor", 13.956, 2e-3, HalfWaveDC(31)},
	})
}

// shapes are the waves as plain functions of the angle, so that the closed
// forms can be checked by adding up samples.
var shapes = map[string]struct {
	wave Wave
	at   func(angle float64) float64
}{
	"sine":      {Sine(3), func(a float64) float64 { return 3 * math.Sin(a) }},
	"half-wave": {HalfWave(3), func(a float64) float64 { return math.Max(0, 3*math.Sin(a)) }},
	"full-wave": {FullWave(3), func(a float64) float64 { return math.Abs(3 * math.Sin(a)) }},
	"square":    {SquareWave(3), func(a float64) float64 { return math.Copysign(3, math.Pi-a) }},
	"triangle":  {Triangle(3), func(a float64) float64 { return 3 * (1 - 2*math.Abs(a/math.Pi-1)) }},
	"direct":    {Steady(-3), func(float64) float64 { return -3 }},
	"cut at 60 degrees": {PhaseCut(3, 60), func(a float64) float64 {
		if math.Mod(a, math.Pi) < math.Pi/3 {
			return 0
		}
		return 3 * math.Sin(a)
	}},
	"clamped at half": {Clamped(3, 0.5), func(a float64) float64 {
		return math.Max(-1.5, math.Min(1.5, 3*math.Sin(a)))
	}},
}

func TestWavesAgreeWithTheirSamples(t *testing.T) {
	const n = 200_000
	for name, s := range shapes {
		t.Run(name, func(t *testing.T) {
			var above, below, square, away float64
			for i := range n {
				v := s.at((float64(i) + 0.5) * 2 * math.Pi / n)
				above += math.Max(v, 0) / n
				below += math.Max(-v, 0) / n
				square += v * v / n
			}
			for i := range n {
				away += math.Abs(s.at((float64(i)+0.5)*2*math.Pi/n)-(above-below)) / n
			}
			require.InDelta(t, above, s.wave.Above, 1e-4)
			require.InDelta(t, below, s.wave.Below, 1e-4)
			require.InDelta(t, square, s.wave.Square, 1e-4)
			require.InDelta(t, away, s.wave.Deviation, 1e-4)
		})
	}
}

func TestWhatMetersShowOfPeakOne(t *testing.T) {
	// Integration of the shapes, four decimals; half- and full-wave DC are
	// also printed in TC 9-62 para 4-11.
	rows := []struct {
		name                                      string
		w                                         Wave
		dc, average, trueRMS, rms, red, black, cf float64
	}{
		{"sine", Sine(1), 0, 0.7071, 0.7071, 0.7071, 0.7071, 0.7071, 1.414},
		{"half-wave", HalfWave(1), 0.3183, 0.3897, 0.3856, 0.5, 0.7071, 0, 2},
		{"full-wave", FullWave(1), 0.6366, 0.2977, 0.3078, 0.7071, 1.4142, 0, 1.414},
		{"direct", Steady(1), 1, 0, 0, 1, 2.2214, 0, 1},
		{"cut at 90 degrees", PhaseCut(1, 90), 0, 0.3536, 0.5, 0.5, 0.3536, 0.3536, 2},
		{"clamped at half", Clamped(1, 0.5), 0, 0.4650, 0.4422, 0.4422, 0.4650, 0.4650, 1.131},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			require.InDelta(t, r.dc, r.w.DC(), 6e-5)
			require.InDelta(t, r.average, r.w.ACAverage(), 6e-5)
			require.InDelta(t, r.trueRMS, r.w.ACTrueRMS(), 6e-5)
			require.InDelta(t, r.rms, r.w.RMS(), 6e-5)
			require.InDelta(t, r.red, r.w.ACOneDiode(), 6e-5)
			require.InDelta(t, r.black, r.w.ACOneDiodeReversed(), 6e-5)
			require.InDelta(t, r.cf, r.w.Crest(), 6e-4)
		})
	}
	require.InDelta(t, 0.3536, HalfWave(1).ACDirect(), 6e-5, "half-wave without a blocking capacitor")
}
