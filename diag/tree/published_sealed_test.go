package tree

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The cuts of the small sealed battery against the publications they are from.
func TestSealedBatteryCutsArePublished(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["sealed-12v"]
	require.NotNil(t, sys)

	rows := []struct {
		source     string
		test, band string
		numbers    map[string]float64
		celsius    float64
		cut, off   float64
	}{
		{"TM 5-3805-262-20 p 5-142, empty 11.7 V; less 0.5 V of TM 10-3930-607-15", "sealed_rest", "very low", nil, 20, 11.2, 0.001},
		{"TM 9-6115-730-24 WP 0050, sealed, full at 12.8 to 13.0 V and about 21 degC", "sealed_rest", "charged", nil, 21, 13.0, 0.02},
		{"TM 5-3805-260-24 p 146, good at 9 V under three times the amp-hours", "sealed_load", "under", nil, 20, 9, 0},
		{"the same, whatever the amp-hours", "sealed_load", "under", map[string]float64{"battery_ah": 12}, 20, 9, 0},
		{"TM 5-3895-382-24 Table 29, 10 to 27 degC: 8 to 10 V", "batt_crank", "collapses", nil, 20, 8, 0},
		{"TM 5-3895-382-24 Table 29, 10 to 27 degC: 8 to 10 V", "batt_crank", "low", nil, 20, 10, 0},
		{"TM 5-3895-382-24 Table 29, -7 to 10 degC: 7 to 9 V", "batt_crank", "collapses", nil, 0, 7, 0},
		{"TM 5-3895-382-24 Table 29, -7 to 10 degC: 7 to 9 V", "batt_crank", "low", nil, 0, 9, 0},
		{"TM 5-3895-382-24 Table 29, -23 to -7 degC: 6 to 8 V", "batt_crank", "collapses", nil, -15, 6, 0},
		{"TM 5-3820-256-24-4, electrical, p 8, cable of 3 to 6 ft", "pos_lead", "little", nil, 20, 0.2, 0},
		{"TM 5-3820-256-24-4, electrical, p 8, whole ground side", "ground_side", "little", nil, 20, 0.2, 0},
		{"TM 5-3820-256-24-4, electrical, p 8, magnetic switch", "contacts_drop", "little", nil, 20, 0.3, 0},
		{"TM 5-3895-382-24 p 234, 18 V of 24 V; half of it", "trig_volts", "low", nil, 20, 9, 0},
		{"TM 5-3805-254-20-1 p 281, 13.0 to 15.5 V running", "run_volts", "no more than full", nil, 20, 13, 0},
		{"TM 5-3805-254-20-1 p 281, 13.0 to 15.5 V running", "run_volts", "charging", nil, 20, 15.5, 0},
		{"cycle charge, 2.45 V a cell at most, six cells", "on_charge", "charging", nil, 20, 14.7, 0.001},
		{"16 CFR 1205.5(a)(1)(iii)", "blade_stands", "near", nil, 20, 3, 0},
		// 12 V on the label, 16.4 V RMS behind it: 16.4 * 1.4142 * 0.3183 = 7.38 V, and a fifth more
		{"TC 9-62 para 4-11, half-wave mean 0.318 of the peak", "wall_dc", "part", nil, 20, 8.86, 0.02},
	}
	for _, r := range rows {
		cut, err := bandOf(t, testOf(t, sys, r.test), r.band).Cut(sys.LabelValues(r.numbers, nil, r.celsius))
		require.NoError(t, err)
		require.InDelta(t, r.cut, cut, r.off+1e-9, "%s, %s at %g degC: %s", r.test, r.band, r.celsius, r.source)
	}
}

// What publications call good or bad lies in the band that says so.
func TestSealedBatteryReadingsArePublished(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["sealed-12v"]
	require.NotNil(t, sys)

	rows := []struct {
		source string
		test   string
		value  float64
		band   string
	}{
		{"TM 9-6115-730-24 WP 0050, full", "sealed_rest", 12.8, "charged"},
		// 0.4 to 0.9 V forward is good, 0 or over-range is not: a public guide to diode tests
		{"diode guide", "trickle_fwd", 0.4, "passes"},
		{"diode guide", "trickle_fwd", 0.9, "passes"},
		{"diode guide", "trickle_fwd", 0, "shorted"},
		{"diode guide", "socket_fwd", 0.4, "passes"},
		{"diode guide", "socket_fwd", 0.9, "passes"},
		{"diode guide", "socket_fwd", 0, "shorted"},
		// 16.4 * 1.4142 * 0.3183
		{"TC 9-62 para 4-11, a sound half-wave charger of 12 V", "wall_dc", 7.38, "part"},
		// behind 6 ohm and a diode of 0.9 V at the peak, with the 24 ohm of 12 V and 0.5 A: (23.19 - 0.9) * 0.3183 * 24 / 30
		{"the same, loaded with its label's amps", "wall_load", 5.68, "half"},
	}
	for _, r := range rows {
		values := sys.LabelValues(nil, nil, 21)
		got := ""
		for _, b := range sys.Test(r.test).Bands {
			cut, err := b.Cut(values)
			require.NoError(t, err)
			if r.value < cut {
				got = b.Name
				break
			}
		}
		require.Equal(t, r.band, got, "%s %g: %s", r.test, r.value, r.source)
	}
}
