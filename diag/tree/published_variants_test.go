package tree

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Cuts of the two variants of key start as publications print them.
func TestPublishedVariantCuts(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for _, row := range []struct {
		system, test, band string
		want               float64 // V
		source             string
	}{
		{"housing-solenoid", "trigger_held", "weak", 9, "TM 5-3895-382-24 p 234: a 24 V solenoid pulls in at 18 V; 18 / 2"},
		{"housing-solenoid", "trigger_hot", "part", 9, "the same"},
		{"housing-solenoid", "control_drop", "good", 1, "TM 5-2420-230-24-2 p 13-33: start control circuit, both windings on, 1.0 V"},
		{"housing-solenoid", "ret_hot", "grounded", 1, "the same, both sides of it"},
		{"housing-solenoid", "stcable_drop", "good", 0.2, "TM 5-3820-256-24-4, electrical, p 8: cable of 3 to 6 ft 0.2 V"},
		{"housing-solenoid", "sol_drop", "good", 0.3, "the same: magnetic switch 0.3 V"},
		{"starter-generator", "running_volts", "low", 13, "TM 5-3805-254-20-1 p 281: 13.0 to 15.5 V with the engine running"},
		{"starter-generator", "running_volts", "charging", 15.5, "the same"},
		{"starter-generator", "gen_output", "low", 13, "the same, at the generator"},
		{"starter-generator", "gen_alone", "half-way", 13, "the same"},
		{"starter-generator", "gen_polarised", "half-way", 13, "the same"},
		{"starter-generator", "stcable_drop", "good", 0.2, "TM 5-3820-256-24-4, electrical, p 8"},
	} {
		band := bandOf(t, testOf(t, lib.Systems[row.system], row.test), row.band)
		cut, err := band.Cut(lib.Systems[row.system].LabelValues(nil, nil, 20))
		require.NoError(t, err)
		require.InEpsilon(t, row.want, cut, 1e-9, "%s: %s %q, %s", row.system, row.test, row.band, row.source)
	}
}

// The windings of four classes of 12 V solenoids, amps at 10 V on S as the manual
// prints them: both windings together, then hold-in alone. What they come to is a
// winding, and healthy.
func TestPublishedSolenoidWindings(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["housing-solenoid"]
	values := sys.LabelValues(nil, nil, 20)
	for _, class := range []struct{ both, hold float64 }{{69, 13}, {74, 19}, {97, 18}, {86, 15}} { // TM 5-2420-230-24-2 p 13-33
		for id, ohms := range map[string]float64{"hold_ohms": 10 / class.hold, "pull_ohms": 10 / (class.both - class.hold)} {
			cut, err := bandOf(t, testOf(t, sys, id), "a winding").Cut(values)
			require.NoError(t, err)
			require.Less(t, ohms, cut, id)
			low, high, ok := limits(sys.Test(id).Healthy, values)
			require.True(t, ok)
			require.GreaterOrEqual(t, ohms, low, "%s of %v", id, class)
			require.LessOrEqual(t, ohms, high, "%s of %v", id, class)
		}
	}
}
