package tree

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/electric"
)

// The cuts of fuse-12v against the publications. What stands in `want` is typed
// from the source or worked out by hand beside it.
func TestPublishedFuse12V(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["fuse-12v"]
	require.NotNil(t, sys)
	cut := func(test, band string, amps float64) float64 {
		values := sys.LabelValues(map[string]float64{"fuse_amps": amps}, nil, 20)
		for _, b := range sys.Test(test).Bands {
			if b.Name == band {
				v, err := b.Cut(values)
				require.NoError(t, err)
				return v
			}
		}
		t.Fatalf("no band %s of %s", band, test)
		return 0
	}

	band := func(test string, value float64) string {
		values := sys.LabelValues(nil, nil, 20)
		for _, b := range sys.Test(test).Bands {
			c, err := b.Cut(values)
			require.NoError(t, err)
			if value < c {
				return b.Name
			}
		}
		return ""
	}

	for _, row := range []struct {
		test, band string
		fuse       float64 // A on the label
		want, near float64
		source     string
	}{
		// Two joints of 0.1 V each.
		{"clips_drop", "good", 20, 0.2, 1e-9, "usual 0.1 V for each connection, textbooks, from memory"},
		{"clips_drop", "good", 10, 0.2, 1e-9, "the same at any rating"},
		// 98 mV of the fuse at its 20 A and the two joints: 0.298 V.
		{"fuse_holder_drop", "small", 20, 0.298, 0.005, "blade fuse maker's table, 20 A: 98 mV, from memory, and two joints"},
		// Cold 3.4 mohm, warm 98 mV / 20 A = 4.9 mohm; the heat goes with the square of the amps. At 16 A:
		// 3.4 + 1.5 x 0.64 = 4.36 mohm, 69.8 mV, 0.712 of 98 mV.
		{"fuse_load", "room", 20, 0.712, 0.005, "same table, at four fifths of the rating"},
		// 30 A: cold 2.0, warm 2.8 mohm; at 24 A 2.0 + 0.8 x 0.64 = 2.512 mohm, 60.3 mV, 0.718 of 84 mV.
		{"fuse_load", "room", 30, 0.718, 0.01, "same table, at four fifths of the rating"},
		{"fuse_load_lights", "room", 20, 0.712, 0.005, "same table, at four fifths of the rating"},
		{"load_amps", "room", 20, 16, 1e-9, "75 to 80 % of the rating all day: practice; 110 % for 100 h: SAE J1284, from memory"},
		{"load_amps", "room", 30, 24, 1e-9, "same"},
	} {
		require.InDelta(t, row.want, cut(row.test, row.band, row.fuse), row.near, "%s %s at %g A: %s", row.test, row.band, row.fuse, row.source)
	}

	// A blade fuse opens at 135 % of its rating within 600 s (SAE J1284 and ISO 8820-3, from memory): 20 A at
	// 27 A, which 12.6 V drives through 0.467 ohm. So everything that blows it reads as a short, and what
	// reads as one in a coil or an accessory draws 7.5 A at least, more than the 3 to 6 A of a sound coil.
	blows := 12.6 / (1.35 * 20)
	require.Equal(t, 600.0, electric.FuseSeconds(20, 27))
	for _, row := range []struct {
		test string
		most float64 // ohm: the least of a sound part, common practice unless named
	}{
		{"acc_ohms", 1.68},   // 12.6 V / 7.5 A, which nothing draws that is switched off
		{"clutch_ohms", 2},   // a blade clutch has two to four ohm
		{"sol_coil_ohms", 3}, // a solenoid by itself has three to five ohm
		{"fuel_ohms", 9},     // a fuel solenoid has ten ohm and more
		{"charge_ohms", 50},
		{"feed_ohms", 50},
		{"key_ground_ohms", 50},
		{"run_wire_ohms", 50},
		{"hour_ohms", 50},
		{"lamp_ohms", 50},
		{"clutch_wire_ohms", 50},
		{"start_wire_ohms", 50},
	} {
		short := cut(row.test, "short", 20)
		// Half an ohm is what a pocket meter may be off by there (5 counts of 0.1 ohm), and the leads some more.
		require.Greater(t, short, blows+0.5+0.2, row.test)
		require.LessOrEqual(t, short, row.most*0.8, "%s: a fifth under what is sound", row.test)
	}

	// Blade clutch of 3.2 ohm at 12.6 V: 3.94 A by Ohm's law, a fifth of a 20 A fuse.
	require.InDelta(t, 3.94, electric.CoilAmps(12.6, 3.2), 0.005)
	require.Equal(t, "coil", band("clutch_ohms", 3.2))
	for _, ohms := range []float64{2, 4} {
		require.Equal(t, "coil", band("clutch_ohms", ohms), "a clutch of two to four ohm, common practice")
	}
	for _, ohms := range []float64{3, 5} {
		require.Equal(t, "coil", band("sol_coil_ohms", ohms), "a solenoid's coil of three to five ohm, common practice")
	}
	// TM 5-2420-230-24-2 p 13-33: solenoids that sit on the starter draw 69 to 97 A at 10 V with both windings:
	// 0.10 to 0.15 ohm. They read as shorted and are sound, so the test's text sends them past it.
	for _, amps := range []float64{69, 74, 97, 86} {
		require.Equal(t, "short", band("sol_coil_ohms", 10/amps))
	}
	require.Contains(t, sys.Test("sol_coil_ohms").Tell, "pass over")

	// Copper at 20 degC, per 1000 ft: AWG 14 2.525 ohm, AWG 16 4.016 ohm, AWG 18 6.385 ohm (ASTM B258, NBS Handbook
	// 100). Five metres of the thinnest add 0.105 ohm: no wire of a machine hides a short.
	for gauge, ohms := range map[float64]float64{14: 2.525, 16: 4.016, 18: 6.385} {
		require.InEpsilon(t, ohms/304.8, electric.WireOhms(gauge, 1, 20), 0.005)
		require.Equal(t, "short", band("feed_ohms", blows+5*ohms/304.8))
	}
}
