package tree

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The cuts of small-diesel that have a publication, against it. Every figure is
// typed from the publication in its row.
func TestCutsOfASmallDieselArePublished(t *testing.T) {
	const (
		drops  = "TM 5-3820-256-24-4, electrical, p 8: wire of over 3 ft 0.2 V, whole ground side 0.2 V, magnetic switch 0.3 V"
		pickup = "data sheet of a 12 V power relay for starter circuits: pulls in at 7.2 V"
		pull   = "TM 5-3895-382-24 p 234: a 24 V solenoid pulls in at 18 V"
	)
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["small-diesel"]
	require.NotNil(t, sys)
	for _, c := range []struct {
		test, band string
		want       float64
		source     string
	}{
		{"feed_loss", "good", 0.2, drops},
		{"bus_wire_loss", "good", 0.2, drops},
		{"hold_loss", "good", 0.2, drops},
		{"relay_contact", "good", 0.3, drops},
		{"prelay_loss", "good", 0.3, drops},
		{"relay_ground", "grounded", 0.2, drops},
		{"sol_ground", "good", 0.2, drops},
		{"stop_ground_loss", "good", 0.2, drops},
		{"relay_signal", "low", 7.2, pickup},
		{"timer_out", "low", 7.2, pickup},
		{"pull_signal", "low", 7.2, pickup},
		{"pull_volts", "fair", 18.0 / 2, pull},
		{"hold_volts", "low", 18.0 / 2, pull},
		{"stop_let_go", "low", 18.0 / 2, pull},
		{"battery_rest", "low", 12.4, "TM 5-3805-262-20 p 5-142: 12.4 V at rest is three quarters"},
	} {
		for _, kind := range []string{"two windings", "one winding", "fed to stop"} {
			require.InDelta(t, c.want, cutOfSmallDiesel(t, sys, c.test, c.band, kind, 20, 3, 10), 0.011, "%s of %s: %s", c.band, c.test, c.source)
		}
	}
}

// Amps of all plugs go with how many there are and what one takes. One plug of
// four that is open leaves three quarters, which must be short; one of two, half.
func TestGlowAmpsGoWithTheLabel(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["small-diesel"]
	for _, c := range []struct{ plugs, each float64 }{{1, 10}, {2, 8}, {3, 12}, {4, 15}} {
		all := c.plugs * c.each
		short := cutOfSmallDiesel(t, sys, "glow_amps", "short", "two windings", 20, c.plugs, c.each)
		require.Greater(t, short, all-c.each, "%v plugs, one open", c.plugs)
		require.Less(t, short, 0.9*all, "%v plugs, all of them a tenth under their label", c.plugs)
		require.Less(t, cutOfSmallDiesel(t, sys, "glow_amps", "none", "two windings", 20, c.plugs, c.each), c.each, "one plug draws")
	}
}

// Windings by TM 5-2420-230-24-2 p 13-33, first instant: pull = volts over (amps of
// both less those of hold). Its row of a 12 V solenoid: 10 V, 69 A both, 13 A hold
// make 10 / 56 = 0.1786 ohm, and that is under what a fuel solenoid has (0.3 to
// 0.6 ohm). 10 V, 24 A and 0.8 A make 10 / 23.2 = 0.431 ohm, which is right.
// At another temperature NBS Handbook 100 in its other form: ohms go with 234.5
// and the temperature.
func TestWindingsOfAFuelSolenoidAreWorkedOut(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["small-diesel"]
	for _, c := range []struct {
		volts, both, hold, celsius float64
		want                       float64
		band                       string
	}{
		{10, 69, 13, 20, 10.0 / 56, "burnt together"},
		{10, 24, 0.8, 20, 10.0 / 23.2, "right"},
		{10, 24, 0.8, -10, 10.0 / 23.2 * 254.5 / 224.5, "right"},
		{10, 9, 0.8, 20, 10.0 / 8.2, "too many"},
	} {
		v := sys.LabelValues(nil, nil, c.celsius)
		v.Numbers["pull_volts"], v.Numbers["both_amps"], v.Numbers["hold_amps"] = c.volts, c.both, c.hold
		got, err := sys.Test("pull_winding").FromValue(v)
		require.NoError(t, err)
		require.InDelta(t, c.want, got, 0.002*c.want)
		require.Equal(t, c.band, bandHolding(t, testOf(t, sys, "pull_winding"), got, sys.LabelValues(nil, nil, 20)))
	}
	for _, c := range []struct{ at20, celsius float64 }{{10, 40}, {14, -15}, {20, 35}} {
		v := sys.LabelValues(nil, nil, c.celsius)
		v.Numbers["hold_ohms"] = c.at20 * (234.5 + c.celsius) / 254.5
		got, err := sys.Test("hold_at_20").FromValue(v)
		require.NoError(t, err)
		require.InDelta(t, c.at20, got, 0.002*c.at20, "%v ohm at %v degC", c.at20, c.celsius)
		require.Equal(t, "right", bandHolding(t, testOf(t, sys, "hold_at_20"), got, sys.LabelValues(nil, nil, 20)))
	}
}

func cutOfSmallDiesel(t *testing.T, sys *System, test, band, kind string, celsius, plugs, each float64) float64 {
	t.Helper()
	asked := sys.Test(test)
	require.NotNil(t, asked, "no test %s", test)
	v := sys.LabelValues(map[string]float64{"plugs": plugs, "glow_amps": each}, map[string]string{"stop_kind": kind}, celsius)
	for _, b := range asked.Bands {
		if b.Name == band {
			cut, err := b.Cut(v)
			require.NoError(t, err)
			return cut
		}
	}
	require.Fail(t, "no such band", "%s of %s", band, test)
	return 0
}
