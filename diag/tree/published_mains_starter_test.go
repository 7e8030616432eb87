package tree

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
)

// The cuts of the mains starter against the publications that they name. Ohms of
// cords are worked out from the table of NBS Handbook 100 as quoted (ohm for 1000
// ft, 304.8 m): 14 AWG 2.525, 16 AWG 4.016, 18 AWG 6.385. Figures in ohm.
func TestCutsOfTheMainsStarterArePublished(t *testing.T) {
	const (
		class1 = "in-service appliance tests, class I: earth not over 0.1 ohm and the cord's own on top"
		asnzs  = "AS/NZS 3760: earth not over 1 ohm"
		megohm = "in-service appliance tests, class I: 1 megohm or more"
		nec    = "NFPA 70, informational note: 5 % volts lost in all (memory)"
		ohm    = "Ohm's law: above volts over amps of the plate the plate's amps can't flow"
	)
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["mains-starter"]
	require.NotNil(t, sys)
	type label = map[string]float64
	for _, c := range []struct {
		test, band string
		label      label
		want       float64
		source     string
	}{
		{"earth_ohms", "good", label{"cord_gauge": 16, "cord_metres": 3}, 0.1 + 4.016*3/304.8, class1},     // 0.1395
		{"earth_ohms", "good", label{"cord_gauge": 18, "cord_metres": 10}, 0.1 + 6.385*10/304.8, class1},   // 0.3095
		{"earth_ohms", "good", label{"cord_gauge": 14, "cord_metres": 0.3}, 0.1 + 2.525*0.3/304.8, class1}, // 0.1025
		{"earth_plain", "low", label{"cord_gauge": 16, "cord_metres": 3}, 1 + 4.016*3/304.8, asnzs},        // 1.0395
		{"earth_again", "low", label{"cord_gauge": 18, "cord_metres": 10}, 1 + 6.385*10/304.8, asnzs},      // 1.2095
		{"insulation_meter", "low", nil, 1e6, megohm},
		{"insulation_body", "low", nil, 1e6, megohm},
		{"insulation_motor", "low", nil, 1e6, megohm},
		{"insulation_cordset", "low", nil, 1e6, megohm},
		{"extension_loop", "fine", label{"mains_volts": 120, "starter_amps": 8}, 6.0 / 8, nec}, // 5 % of 120 V are 6 V
		{"extension_loop", "fine", label{"mains_volts": 120, "starter_amps": 12}, 6.0 / 12, nec},
		{"extension_loop", "fine", label{"mains_volts": 230, "starter_amps": 4}, 11.5 / 4, nec},
		{"path_pressed", "motor", label{"mains_volts": 120, "starter_amps": 8}, 15, ohm},
		{"motor_ohms", "sound", label{"mains_volts": 230, "starter_amps": 4}, 57.5, ohm},
		{"motor_cooled", "passes again", label{"mains_volts": 120, "starter_amps": 6}, 20, ohm},
	} {
		var cut *float64
		for _, band := range sys.Test(c.test).Bands {
			if band.Name == c.band {
				v, err := band.Cut(sys.LabelValues(c.label, nil, 20))
				require.NoError(t, err)
				cut = &v
			}
		}
		require.NotNil(t, cut, "%s of %s", c.band, c.test)
		require.InEpsilon(t, c.want, *cut, 0.001, "%s of %s: %s", c.band, c.test, c.source)
	}
}

// What the texts beside those cuts say of extension cords, out and back at 20 degC:
// 30 m of 18 AWG 2 x 30/304.8 x 6.385 = 1.257 ohm, of 14 AWG 0.497, of 12 AWG (1.588)
// 0.313. The first is too much for 8 A at 120 V, the others are not.
func TestExtensionCordsThatAreNamed(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["mains-starter"]
	test := sys.Test("extension_loop")
	for _, want := range []string{"18 AWG have 1.26 ohm", "14 AWG 0.50", "12 AWG 0.31"} {
		require.Contains(t, test.Why, want)
	}
	limit, err := test.Bands[0].Cut(sys.LabelValues(map[string]float64{"mains_volts": 120, "starter_amps": 8}, nil, 20))
	require.NoError(t, err)
	for per1000ft, fine := range map[float64]bool{6.385: false, 2.525: true, 1.588: true} {
		require.Equal(t, fine, 2*30/304.8*per1000ft < limit, "%v ohm for 1000 ft", per1000ft)
	}
}

// Nothing of a mains starter is measured where it is fed: every state in which a
// meter touches it has the plug out, and none asks for volts of the mains.
func TestAMainsStarterIsMeasuredUnplugged(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["mains-starter"]
	metered := 0
	for _, test := range sys.Tests {
		if test.Kind != Metered {
			continue
		}
		metered++
		require.NotEqual(t, measure.ACVolts, test.Function, test.ID)
		plug := ""
		for _, s := range sys.States {
			if s.ID == test.State {
				plug = s.Needs["mains-plug"]
			}
		}
		for _, s := range sys.Setups {
			if setting, says := s.Needs["mains-plug"]; says && slices.Contains(test.With, s.ID) {
				require.Equal(t, "out", setting, s.ID)
			}
		}
		require.Equal(t, "out", plug, "%s is read without the plug out", test.ID)
	}
	require.Greater(t, metered, 20)
}
