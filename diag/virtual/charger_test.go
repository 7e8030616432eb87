package virtual

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
)

// The figures are those of testdata/circuits/chargers-open.csv and
// chargers-50ohm.csv, whose heads say where they are from; there a bridge's
// winding has 10 Mohm of insulation, here much more.
func TestChargersReadAsEachKindOfMeterShowsThem(t *testing.T) {
	open, loaded := table(t, "chargers-open.csv"), table(t, "chargers-50ohm.csv")
	maker := makerOf(t, "charger")
	cell := func(rows map[string]map[string]string, row, column string) float64 {
		v, err := strconv.ParseFloat(rows[row][column], 64)
		require.NoError(t, err, "%s %s", row, column)
		return v
	}
	for _, c := range []struct {
		fault, test string
		want        float64
		off         float64
	}{
		{"", "half_dc", cell(open, "half-wave: healthy", "mean"), 0.02},
		{"", "half_ac", cell(open, "half-wave: healthy", "true"), 0.02},
		{"", "half_back", cell(open, "half-wave: healthy", "true"), 0.02},
		{"", "full_dc", cell(open, "full-wave: healthy", "mean"), 0.05},
		{"", "full_ac", cell(open, "full-wave: healthy", "true"), 0.05},
		{"", "filtered_dc", cell(open, "filtered: healthy", "mean"), 0.02},
		{"", "filtered_load", cell(loaded, "filtered: 50 ohm", "mean"), 0.05},
		{"diode.open", "full_dc", cell(open, "full-wave: one diode open", "mean"), 0.08},
		{"diode.open", "filtered_load", cell(loaded, "filtered: one diode open 50 ohm", "mean"), 0.06},
		{"diode.shorted", "half_dc", 0, 0.01},
		{"diode.shorted", "half_ac", cell(open, "half-wave: one diode shorted", "true"), 0.02},
		{"transformer.open", "half_ac", 0, 0.01},
		{"transformer.open", "full_dc", 0, 0.01},
		{"capacitor.dead", "filtered_load", cell(loaded, "filtered: dead cap 50 ohm", "mean"), 0.05},
		// Into the battery, of testdata/circuits/chargers-battery.csv.
		{"", "half_amps", 0.32, 0.005},
	} {
		d := Draw{Usual: true}
		if c.fault != "" {
			d.Faults = []string{c.fault}
		}
		require.InDelta(t, c.want, answerOf(t, build(t, maker, d), c.test).Value, c.off, "%s %s", c.fault, c.test)
	}
}

// A bare rectifier shows 2.22 times the direct volts one way and nothing the
// other: pi over the square root of 2, by the form factor of a half-wave
// rectified sine.
func TestACheapAcRangeTakesABatteryForAc(t *testing.T) {
	machine := usual(t, "charger")
	show := func(test string, m measure.Meter) float64 {
		s, err := machine.Shows(testOf(t, machine, test), Bench{Meter: m})
		require.NoError(t, err)
		return s.Reading.Value
	}
	require.Equal(t, 27.5, show("battery_ac", pocket))
	require.Zero(t, show("battery_back", pocket))
	require.Zero(t, show("battery_ac", bench))

	// A half-wave charger too, and less than the 16.66 V of a meter of 10 Mohm:
	// 450 kohm leave nothing in the leads' capacitance.
	require.InDelta(t, 16.0, show("half_ac", pocket), 0.3)
	require.InDelta(t, 0, show("half_back", pocket), 0.1)
	require.InDelta(t, 8.67, show("half_ac", bench), 0.02)
}

func TestACircuitIsFollowedOnce(t *testing.T) {
	maker := makerOf(t, "charger")
	machine := build(t, maker, Draw{Number: 3})
	answerOf(t, machine, "half_dc")
	once := maker.Counts().Followed
	require.Positive(t, once)
	answerOf(t, build(t, maker, Draw{Number: 3, Faults: []string{"capacitor.dead"}}), "half_dc")
	require.Equal(t, once, maker.Counts().Followed, "the fault is on another charger")
	answerOf(t, build(t, maker, Draw{Number: 3, Faults: []string{"diode.open"}}), "half_dc")
	require.Greater(t, maker.Counts().Followed, once)
}
