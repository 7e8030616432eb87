package tree

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A public small-engine service text on flywheel alternators, stator unplugged:
// the least AC volts at four speeds, of two systems.
var publishedStators = []struct{ at3600, rpm, volts float64 }{
	{28, 2500, 19},
	{28, 3000, 23},
	{28, 3300, 26},
	{28, 3600, 28},
	{23, 2500, 16},
	{23, 3000, 19},
	{23, 3300, 21},
	{23, 3600, 23},
}

// What counts as too few AC volts at a speed is what the text prints, to the
// half volt that its whole volts leave open.
func TestPublishedStatorVoltsAgainstSpeed(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for _, id := range []string{"charge-diode", "charge-regulated"} {
		sys := lib.Systems[id]
		for _, row := range publishedStators {
			v := sys.LabelValues(map[string]float64{"stator_ac": row.at3600, "stator_ac_rpm": 3600}, nil, 20)
			v.Numbers["engine_speed"], v.Numbers["stator_ac"] = row.rpm, 1
			share := testOf(t, sys, "stator_share")
			perVolt, err := share.FromValue(v)
			require.NoError(t, err)
			cut, err := bandOf(t, share, "low").Cut(v)
			require.NoError(t, err)
			require.InDelta(t, row.volts, cut/perVolt, 0.5, "%s at %g rpm", id, row.rpm)
		}
	}
}

// The same text: least DC volts behind the one diode, charging lead off.
func TestPublishedHalfWaveVoltsAgainstSpeed(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["charge-diode"]
	for rpm, volts := range map[float64]float64{2500: 9, 3000: 11, 3600: 14} {
		v := sys.LabelValues(map[string]float64{"governed_rpm": rpm}, nil, 20)
		cut, err := bandOf(t, testOf(t, sys, "half_dc"), "under the book").Cut(v)
		require.NoError(t, err)
		require.InDelta(t, volts, cut, 1e-9, "at %g rpm", rpm)
	}
	// TC 9-62 para 4-11, 0.318 of the peak, and 0.707 of it for the RMS: a stator of the
	// 20 V that small ones make (from memory) gives 0.318 x 20 / 0.707 = 9.00 V.
	cut, err := bandOf(t, testOf(t, sys, "half_dc"), "low").Cut(sys.LabelValues(nil, nil, 20))
	require.NoError(t, err)
	require.InDelta(t, 9.00, cut, 0.01)
}

func TestPublishedChargingCuts(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	both := []string{"charge-diode", "charge-regulated"}
	for _, row := range []struct {
		systems    []string
		test, band string
		want       float64 // V
		source     string
	}{
		{both, "posts_running", "low", 13.0, "TM 5-3805-254-20-1 p 281: 13.0 to 15.5 V while it charges"},
		{both, "posts_running", "usual", 15.5, "the same"},
		{both[1:], "posts_later", "low", 13.0, "the same"},
		{both[1:], "posts_later", "held", 15.5, "the same"},
		{both, "lead_drop", "small", 0.3, "TM 10-3930-671-24 p F-285: charging circuit 0.3 V at 10 A"},
		{both, "return_drop", "small", 0.2, "TM 5-3820-256-24-4 p 8: whole ground side 0.2 V"},
		{both[:1], "diode_forward", "shorted", 0.2, "a meter manual: no diode under 0.2 V, the least of germanium"},
		{both[:1], "diode_forward", "conducts", 1.0, "1N400x data sheets: 1.0 V at most, at a thousand times the meter's current"},
		{both[:1], "diode_reverse", "shorted", 0.2, "as forward"},
		{both[:1], "diode_reverse", "conducts", 1.0, "as forward"},
		{both[1:], "case_to_a", "shorted", 0.2, "as forward"},
		{both[1:], "case_to_a", "conducts", 1.0, "as forward"},
		{both[1:], "case_to_b", "shorted", 0.2, "as forward"},
		{both[1:], "case_to_b", "conducts", 1.0, "as forward"},
		{both[1:], "a_to_out", "shorted", 0.2, "as forward"},
		{both[1:], "a_to_out", "conducts", 1.0, "as forward"},
		{both[1:], "b_to_out", "shorted", 0.2, "as forward"},
		{both[1:], "b_to_out", "conducts", 1.0, "as forward"},
	} {
		for _, id := range row.systems {
			sys := lib.Systems[id]
			cut, err := bandOf(t, testOf(t, sys, row.test), row.band).Cut(sys.LabelValues(nil, nil, 20))
			require.NoError(t, err)
			require.InDelta(t, row.want, cut, 1e-9, "%s %s %s: %s", id, row.test, row.band, row.source)
		}
	}
}

// Readings that the sources print of sound and of bad parts fall where they belong.
func TestPublishedChargingReadings(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for _, row := range []struct {
		system, test string
		reading      float64
		want, source string
	}{
		{"charge-diode", "diode_forward", 0.4, "conducts", "meter manuals: 0.4 to 0.9 V good"},
		{"charge-diode", "diode_forward", 0.9, "conducts", "the same"},
		{"charge-diode", "diode_forward", 0, "shorted", "the same: 0 both ways bad"},
		{"charge-regulated", "case_to_a", 0.5, "conducts", "meter manuals: 0.5 to 0.8 V good"},
		{"charge-regulated", "case_to_b", 0.8, "conducts", "the same"},
		{"charge-regulated", "winding_ohms", 1.0, "whole", "TM 5-4320-273-14 p 125: end to end about 1 ohm"},
		{"charge-regulated", "winding_ohms", 0.25, "whole", "a builder's log: 0.250 ohm at 20 degC"},
		{"charge-regulated", "lead_to_ground", 1, "grounded", "TM 5-4320-273-14 p 125: any continuity to engine is bad"},
		{"charge-regulated", "lead_to_ground", math.Inf(1), "floats", "the same: infinite is good"},
		{"charge-diode", "posts_running", 17, "over", "over the 15.5 V of TM 5-3805-254-20-1 p 281"},
	} {
		sys := lib.Systems[row.system]
		v := sys.LabelValues(nil, nil, 20)
		got := bandHolding(t, testOf(t, sys, row.test), row.reading, v)
		require.Equal(t, row.want, got, "%s %s: %s", row.system, row.test, row.source)
	}
}
