package tree

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// The cuts of the safety chains stand where the publications have them. Every
// figure is typed from the source beside it; what a row adds to it says so.
func TestPublishedCutsOfSafetyChains(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["safety-chains"]
	require.NotNil(t, sys)
	loss := func(ids ...string) []string { return ids }
	for _, row := range []struct {
		source string
		tests  []string
		band   string // the one that ends at the cut
		words  map[string]string
		want   float64
	}{
		{
			"TM 5-2420-230-24-2 p 13-33: start control circuit, both sides together, 1.0 V",
			loss("brake_wire_loss", "neut_wire_loss", "blade_wire_loss", "sol_wire_loss", "brake_loss", "neut_loss", "blade_loss",
				"ret_wire_loss", "relay_loss", "relay_gnd_loss", "seat_wire_loss", "seat_loss", "seat_gnd_loss"),
			"fair", nil, 1.0,
		},
		{"TM 5-3895-382-24 p 234: a 24 V solenoid must pull in at 18 V; half of it", loss("trig_hot", "rly_feed_hot"), "part", nil, 18.0 / 2},
		{"the same", loss("key_hot"), "low", nil, 18.0 / 2},
		{"data sheet of a 12 V power relay for starter circuits: pulls in at 8 V at most", loss("rly_volts"), "weak", nil, 8},
		{"16 CFR 1205.5(a)(1)(iii): 3.0 s; less 0.3 s for the person", loss("stop_time"), "in time", map[string]string{"driving": "walk-behind"}, 3.0 - 0.3},
		{"ANSI/OPEI B71.1, from memory: 5 s; less 0.3 s for the person", loss("stop_time"), "in time", map[string]string{"driving": "ride-on"}, 5.0 - 0.3},
	} {
		for _, id := range row.tests {
			test := testOf(t, sys, id)
			i := slices.IndexFunc(test.Bands, func(b Band) bool { return b.Name == row.band })
			require.GreaterOrEqual(t, i, 0, "%s has no band %q", id, row.band)
			cut, err := test.Bands[i].Cut(sys.LabelValues(nil, row.words, benches[0]))
			require.NoError(t, err)
			require.InDelta(t, row.want, cut, 1e-9, "%s: %s (%s)", id, row.band, row.source)
		}
	}
}

// Published figures of parts that are as they should be, or as they should not,
// lie in the band that says so.
func TestPublishedReadingsOfSafetyChains(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["safety-chains"]
	require.NotNil(t, sys)
	for _, row := range []struct {
		source, test string
		reading      float64 // V, ohm
		band         string
	}{
		{"relay data sheet: coil 75 ohm", "rly_coil", 75, "right"},
		{"relay data sheet: coil 100 ohm less 10 %", "rly_coil", 90, "right"},
		{"relay data sheet: coil 260 ohm", "rly_coil", 260, "right"},
		{"relay data sheet: coil 300 ohm and 10 %", "rly_coil", 330, "right"},
		// the same relay family for 24 V has 320 ohm and is not told from it; one for 6 V, a quarter of 100 ohm, is
		{"a 6 V coil of the same watts as 12 V, 100 ohm: 100 / 4", "rly_coil", 25, "few"},
		{"relay data sheet: contact at most 100 mV at 10 A when new, 10 milliohm", "brake_down", 0.1 / 10, "closed"},
		{"TM 5-3820-256-24-4, electrical, p 8: mechanical switch at most 0.1 V, at 3 A", "seat_sat", 0.1 / 3, "closed"},
		{"the same as a drop", "brake_loss", 0.1, "good"},
		{"FAA powerplant handbook: the switch grounds it in off; practice: near 0.2 ohm", "stop_key_off", 0.2, "stops"},
		{"practice: over 1 megohm in run", "stop_free", 1.1e6, "open"},
		{"practice: over 1 megohm in run", "stop_mow", 1.1e6, "open"},
		// Ohm's law: a coil of 4 ohm that must see 7 of 12.6 V, through 3.2 ohm or more
		{"12.6 V over 4 ohm and 3.2 ohm more: the coil keeps 7.0 V, lost are 5.6 V", "blade_loss", 12.6 * 3.2 / 7.2, "lossy"},
	} {
		test := testOf(t, sys, row.test)
		values := sys.LabelValues(nil, nil, benches[0])
		got := test.Bands[len(test.Bands)-1].Name
		for _, band := range test.Bands[:len(test.Bands)-1] {
			cut, err := band.Cut(values)
			require.NoError(t, err)
			if row.reading < cut {
				got = band.Name
				break
			}
		}
		require.Equal(t, row.band, got, "%s: %v (%s)", row.test, row.reading, row.source)
	}
}
