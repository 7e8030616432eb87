package electric

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDropCableTable(t *testing.T) {
	// TM 5-3820-256-24-4, electrical, p 8.
	require.Equal(t, 0.1, DropCable(2.9*0.3048))
	require.Equal(t, 0.2, DropCable(3.1*0.3048))
	require.Equal(t, 0.2, DropCable(5.9*0.3048))
	require.InDelta(t, 0.4, DropCable(12*0.3048), exact, "our own extension")
}

func TestFuses(t *testing.T) {
	// SAE J1284 / ISO 8820-3, from memory.
	require.Equal(t, math.Inf(1), FuseSeconds(20, 22))
	require.Equal(t, 600.0, FuseSeconds(20, 27))
	require.Equal(t, 5.0, FuseSeconds(20, 40))
	require.Equal(t, 0.5, FuseSeconds(20, 70))
	// A fuse maker's table, from memory: warm, a 10 A fuse has 1.4 times its
	// cold resistance.
	require.InDelta(t, 1.4, FuseDrop(10)/10/FuseOhms(10), 0.02)
}

func TestChargers(t *testing.T) {
	require.InDelta(t, 7.4, ChargerOpen(12, ChargerHalfWave), 0.15, "0.45 x 16.4 V, TC 9-62 para 4-11")
	require.InDelta(t, 14.76, ChargerOpen(12, ChargerFullWave), 0.6, "0.90 x 16.4 V less two diodes")
	require.InDelta(t, 16.26, ChargerOpen(12, ChargerFiltered), 2*DiodeMost, "1.414 x 11.5 V less two diodes")
	require.InDelta(t, 8.7, ChargerOpenAC(12, ChargerHalfWave, false), 0.5, "0.3897 x 23.2 V peak")
	require.InDelta(t, 7.1, ChargerOpenAC(12, ChargerFullWave, true), 0.1, "0.3078 x 23.2 V peak")
	require.Zero(t, ChargerOpenAC(12, ChargerFiltered, true))
	require.Equal(t, 24.0, TestLoadOhms(12, 0.5), "Ohm's law")
	require.Equal(t, 6.0, TestLoadWatts(12, 0.5), "Ohm's law")
	require.InDelta(t, 0.00833, RippleVolts(0.1, 120, 0.1), 1e-5, "I/(2 f C), textbook")
}

func TestDiodeStaysInTheMetersWindow(t *testing.T) {
	for _, amps := range []float64{1e-3, 1.5e-3} {
		v := DiodeVolts(amps, 25)
		require.Greater(t, v, DiodeLeast)
		require.Less(t, v, DiodeMost)
	}
	require.Less(t, DiodeVolts(1, 25), DiodeMostRated, "1N4001 to 1N4007 data sheet")
}

func TestStatorLeast(t *testing.T) {
	require.Equal(t, 28.0, StatorLeast(3600, 15), "common practice, from memory")
	require.Equal(t, 20.0, StatorLeast(3600, 3), "common practice, from memory")
	rapid.Check(t, func(t *rapid.T) {
		rpm := rapid.Float64Range(1, 5000).Draw(t, "rpm")
		amps := rapid.Float64Range(0.5, 30).Draw(t, "amps")
		require.InEpsilon(t, 2*StatorLeast(rpm, amps), StatorLeast(2*rpm, amps), 1e-12)
	})
}

// A public small-engine service text: 9.0, 11.0 and 14.0 V at 2500, 3000 and 3600 rpm.
func TestHalfWaveLeast(t *testing.T) {
	require.Equal(t, 9.0, HalfWaveLeast(2500))
	require.Equal(t, 11.0, HalfWaveLeast(3000))
	require.Equal(t, 14.0, HalfWaveLeast(3600))
	require.InDelta(t, 12.5, HalfWaveLeast(3300), 1e-9, "half way between 3000 and 3600")
	require.InDelta(t, 7.2, HalfWaveLeast(2000), 1e-9, "9.0 V x 2000 / 2500")
	require.InDelta(t, 15.5556, HalfWaveLeast(4000), 1e-4, "14.0 V x 4000 / 3600")
	require.True(t, math.IsNaN(HalfWaveLeast(math.NaN())))
}

func TestCopperGoesBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(1e-4, 1e4).Draw(t, "ohms")
		celsius := rapid.Float64Range(-40, 180).Draw(t, "celsius")
		require.InEpsilon(t, r, Copper20(CopperOhms(r, celsius), celsius), 1e-12)
	})
}

func TestTableHoldsItsEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Draw(t, "x")
		y := restFlooded.at(x)
		require.GreaterOrEqual(t, y, 11.7-exact)
		require.LessOrEqual(t, y, 12.6+exact)
	})
	require.True(t, math.IsNaN(restFlooded.at(math.NaN())))
}
