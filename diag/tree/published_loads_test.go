package tree

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The cuts on the loads behind the key against the publications that they name.
// Every figure is typed from the publication in its row, or worked out beside it.
func TestCutsOnLoadsArePublished(t *testing.T) {
	const (
		manual = "TM 5-3820-256-24-4, electrical, p 8"
		relays = "a public note on 12 V relays: pulls in at 75 % of its rated volts"
		sheet  = "data sheet of a 12 V power relay: 7.2 V at most; 100 mV at 10 A"
		rest   = "TM 5-3805-262-20 p 5-142"
		rule   = "16 CFR 1205.5(a)(1)(iii), 3.0 s; ANSI/OPEI B71.1, 5.0 s (memory); less 0.3 s for the person"
		coils  = "clutch coils of 2 to 4 ohm (practice): a third to either side of label volts over amps"
	)
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for _, c := range []struct {
		system, test, band string
		amps               float64 // on the clutch's label; 0: not read
		driving            string
		want               float64
		source             string
	}{
		{"blade-clutch", "key_loss", "good", 0, "", 0.1, manual},
		{"blade-clutch", "pto_loss", "good", 0, "", 0.1, manual},
		{"blade-clutch", "seat_loss", "good", 0, "", 0.1, manual},
		{"blade-clutch", "straight_wire_loss", "good", 0, "", 0.2, manual},
		{"blade-clutch", "ground_loss", "good", 0, "", 0.2, manual},
		{"fuel-and-lamps", "fuel_body_loss", "good", 0, "", 0.2, manual},
		{"fuel-and-lamps", "lamp_switch_loss", "good", 0, "", 0.1, manual},
		{"fuel-and-lamps", "lamp_ground_loss", "good", 0, "", 0.2, manual},
		{"blade-clutch", "clutch_volts", "low", 0, "", 0.75 * 12, relays},
		{"fuel-and-lamps", "fuel_volts", "low", 0, "", 0.75 * 12, relays},
		{"blade-clutch", "relay_coil_volts", "low", 0, "", 7.2, sheet},
		{"blade-clutch", "relay_loss", "good", 0, "", 0.1, sheet},
		{"blade-clutch", "posts_rest", "flat", 0, "", 12.0, rest},
		{"fuel-and-lamps", "posts_rest", "low", 0, "", 12.4, rest},
		{"blade-clutch", "stop_time", "in time", 0, "walk-behind", 3.0 - 0.3, rule},
		{"blade-clutch", "stop_time", "in time", 0, "ride-on", 5.0 - 0.3, rule},
		{"blade-clutch", "clutch_20", "too few", 0, "", 2, coils},
		{"blade-clutch", "clutch_20", "right", 0, "", 4, coils},
		{"blade-clutch", "clutch_20", "too few", 5, "", 1.6, coils}, // 12 V / 5 A = 2.4 ohm, less 0.8
		{"blade-clutch", "clutch_20", "right", 5, "", 3.2, coils},
		{"blade-clutch", "clutch_hot_20", "too few", 5, "", 1.6, coils},
		{"blade-clutch", "clutch_amps", "right", 5, "", 7.5, "a coil of two thirds of 2.4 ohm draws 12 V / 1.6 ohm"},
	} {
		require.InDelta(t, c.want, cutOfLoads(t, lib, c.system, c.test, c.band, c.amps, c.driving), 1e-9, "%s of %s: %s", c.band, c.test, c.source)
	}
}

// What all parts together may lose is the sum of what each may lose by itself:
// three switches, a wire, two connections and the ground side.
func TestLossesOfAClutchAddUp(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sum := 0.0
	for _, part := range []string{"key_loss", "pto_loss", "seat_loss", "straight_wire_loss", "fuse_loss", "plug_loss", "ground_loss"} {
		sum += cutOfLoads(t, lib, "blade-clutch", part, "good", 0, "")
	}
	require.InDelta(t, 3*0.1+0.2+2*0.1+0.2, sum, 1e-9)
	require.InDelta(t, sum, cutOfLoads(t, lib, "blade-clutch", "both_losses", "within the sum", 0, ""), 1e-9)
}

// NBS Handbook 100 in its other form: ohms go with 234.5 and the temperature. Of 3.00 ohm
// at 20 degC that makes 3.00 (234.5 + 85) / 254.5 = 3.766 at 85 and 3.00 (234.5 - 5) / 254.5
// = 2.705 at -5.
func TestClutchCoilIsCorrectedTo20(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["blade-clutch"]
	for _, c := range []struct {
		test, ohms, celsius string
		at, reads           float64
	}{
		{"clutch_20", "clutch_ohms", "bench.celsius", -5, 3.00 * 229.5 / 254.5},
		{"clutch_hot_20", "clutch_hot_ohms", "clutch_warmth", 85, 3.00 * 319.5 / 254.5},
	} {
		v := sys.LabelValues(nil, nil, 20)
		v.Numbers[c.ohms], v.Numbers[c.celsius] = c.reads, c.at
		got, err := sys.Test(c.test).FromValue(v)
		require.NoError(t, err)
		require.InDelta(t, 3.00, got, 0.003, "%s at %v degC", c.test, c.at)
	}
}

// cutOfLoads is the upper cut of a band, in base units, with one line of the label read.
func cutOfLoads(t *testing.T, lib *Library, system, test, band string, amps float64, driving string) float64 {
	t.Helper()
	sys := lib.Systems[system]
	require.NotNil(t, sys)
	numbers, words := map[string]float64{}, map[string]string{}
	if amps > 0 {
		numbers["clutch_amps"] = amps
	}
	if driving != "" {
		words["driving"] = driving
	}
	asked := sys.Test(test)
	require.NotNil(t, asked, "%s has no test %s", system, test)
	for _, b := range asked.Bands {
		if b.Name == band {
			cut, err := b.Cut(sys.LabelValues(numbers, words, benches[0]))
			require.NoError(t, err)
			return cut
		}
	}
	require.Fail(t, "no such band", "%s of %s", band, test)
	return 0
}
