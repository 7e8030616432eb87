package tree

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Cuts of the two generators as publications print them. `share` is what common
// practice puts on a published figure: 2 % under rated speed is slow.
func TestPublishedGeneratorCuts(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	brushed, capacitor := []string{"generator-brushed"}, []string{"generator-capacitor"}
	both := []string{"generator-brushed", "generator-capacitor"}
	machine := func(poles, hertz float64) map[string]float64 {
		return map[string]float64{"poles": poles, "hertz": hertz}
	}
	outlet := func(volts float64) map[string]float64 { return map[string]float64{"rated_volts": volts} }
	for _, row := range []struct {
		systems    []string
		test, band string
		label      map[string]float64
		want       float64 // rpm, V or ohm
		share      float64
		source     string
	}{
		{both, "engine_rpm", "slow", machine(2, 60), 3600, 0.98, "NAVEDTRA 14177 p 3-14: 2 poles, 3600 rpm, 60 Hz"},
		{both, "engine_rpm", "slow", machine(4, 60), 1800, 0.98, "the same: 4 poles, 1800 rpm, 60 Hz"},
		// its formula, hertz = poles x rpm / 120: 2 x 3000 / 120 = 50, 4 x 1500 / 120 = 50
		{both, "engine_rpm", "slow", machine(2, 50), 3000, 0.98, "the same, formula"},
		{both, "engine_rpm", "slow", machine(4, 50), 1500, 0.98, "the same, formula"},
		{both, "engine_rpm", "governed", machine(2, 60), 3888, 1, "ISO 8528-5 class G1: droop 8 %; 3600 x 1.08"},
		{both, "engine_rpm", "governed", machine(2, 50), 3240, 1, "the same; 3000 x 1.08"},
		{both, "load_rpm", "falls", machine(2, 60), 3600, 0.94, "NAVEDTRA 14177 p 3-14"},
		{brushed, "residual_volts", "lost", outlet(120), 1.5, 1, "a maker's repair manual: at least 1.5 V at a 120 V outlet"},
		{brushed, "residual_volts", "lost", outlet(240), 3, 1, "the same in proportion"},
		{capacitor, "residual_bare", "lost", outlet(120), 1.5, 1, "the same"},
		{both, "outlet_volts", "low", outlet(230), 207, 1, "IEC 60038: 230 V less 10 %"},
		{both, "outlet_volts", "right", outlet(230), 253, 1, "IEC 60038: 230 V and 10 %"},
		{brushed, "outlet_flashed", "low", outlet(230), 207, 1, "the same"},
		{capacitor, "outlet_built", "half-way", outlet(230), 207, 1, "the same"},
		{both, "main_insulation", "damp", nil, 1e6, 1, "Army subcourse TR0656: 1 megohm or more"},
		{both, "outlet_insulation", "damp", nil, 1e6, 1, "the same"},
		{brushed, "rotor_insulation", "damp", nil, 1e6, 1, "the same"},
		{both, "earth_ohms", "joined", nil, 1, 1, "AS/NZS 3760: not over 1 ohm"},
	} {
		for _, id := range row.systems {
			sys := lib.Systems[id]
			require.NotNil(t, sys, id)
			test := sys.Test(row.test)
			require.NotNil(t, test, "%s of %s", row.test, id)
			found := false
			for _, band := range test.Bands {
				if band.Name != row.band {
					continue
				}
				found = true
				cut, err := band.Cut(sys.LabelValues(row.label, nil, 20))
				require.NoError(t, err)
				require.InEpsilon(t, row.want*row.share, cut, 1e-9, "%s: %s %q, %s", id, row.test, row.band, row.source)
			}
			require.True(t, found, "%s has no band %q", row.test, row.band)
		}
	}
}

// What the publications call good is called good.
func TestPublishedGeneratorReadings(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for _, row := range []struct {
		system, test string
		label        map[string]float64
		reading      float64
		want, source string
	}{
		{"generator-brushed", "engine_rpm", nil, 3600, "governed", "NAVEDTRA 14177 p 3-14: 60 Hz"},
		{"generator-brushed", "engine_rpm", map[string]float64{"poles": 4}, 1800, "governed", "the same, 4 poles"},
		{"generator-capacitor", "engine_rpm", nil, 3000, "slow", "the same: 50 Hz where 60 is on the label"},
		{"generator-brushed", "residual_volts", nil, 1.5, "there", "a maker's repair manual: at least 1.5 V"},
		// approximately the usual volts with 12 V on the field
		{"generator-brushed", "fed_volts", nil, 120, "comes up", "the same manual"},
		{"generator-capacitor", "main_insulation", nil, 1e6, "clear", "Army subcourse TR0656: 1 megohm or more"},
	} {
		sys := lib.Systems[row.system]
		test := sys.Test(row.test)
		require.NotNil(t, test, row.test)
		values := sys.LabelValues(row.label, nil, 20)
		got := test.Bands[len(test.Bands)-1].Name
		for _, band := range test.Bands[:len(test.Bands)-1] {
			cut, err := band.Cut(values)
			require.NoError(t, err)
			if row.reading < cut {
				got = band.Name
				break
			}
		}
		require.Equal(t, row.want, got, "%s %s %g, %s", row.system, row.test, row.reading, row.source)
	}
}
