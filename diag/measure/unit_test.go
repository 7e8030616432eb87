package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestUnitFactor(t *testing.T) {
	// SI prefixes; 60 and 3600 seconds.
	rows := []struct {
		name, base string
		factor     float64
	}{
		{"V", "V", 1},
		{"mV", "V", 1e-3},
		{"kV", "V", 1e3},
		{"ohm", "ohm", 1},
		{"mohm", "ohm", 1e-3},
		{"kohm", "ohm", 1e3},
		{"Mohm", "ohm", 1e6},
		{"A", "A", 1},
		{"mA", "A", 1e-3},
		{"uA", "A", 1e-6},
		{"rpm", "rpm", 1},
		{"s", "s", 1},
		{"ms", "s", 1e-3},
		{"min", "s", 60},
		{"h", "s", 3600},
		{"degC", "degC", 1},
		{"Ah", "Ah", 1},
		{"mAh", "Ah", 1e-3},
		{"", "", 1},
		{"%", "", 0.01},
	}
	for _, r := range rows {
		base, factor, ok := UnitFactor(r.name)
		require.True(t, ok, r.name)
		require.Equal(t, r.base, base)
		require.InEpsilon(t, r.factor, factor, 1e-15)
	}
	for _, wrong := range []string{"v", "MV", "Ω", "volts", "degF"} {
		_, _, ok := UnitFactor(wrong)
		require.False(t, ok, wrong)
	}
}

func TestEveryFunctionsUnitsAreUnits(t *testing.T) {
	for _, f := range Functions() {
		require.True(t, f.Known())
		require.Equal(t, f.Base(), Units(f)[0])
		for _, u := range Units(f) {
			base, _, ok := UnitFactor(u)
			require.True(t, ok)
			require.Equal(t, f.Base(), base)
		}
	}
	require.False(t, Function("furlongs").Known())
	require.Empty(t, Function("furlongs").Base())
}

func TestFormat(t *testing.T) {
	rows := []struct {
		value     float64
		unit      string
		per, step float64
		want      string
	}{
		{0.37, "V", 1, 0.01, "0.37 V"},
		{0.042, "mV", 0.001, 0.001, "42 mV"},
		{12.6, "V", 1, 0.01, "12.60 V"},
		{12.64, "V", 1, 0.1, "12.6 V"},
		{4700, "kohm", 1000, 100, "4.7 kohm"},
		{1.0 / 3, "V", 1, 0, "0.3333 V"},
		{12.4, "V", 1, 0, "12.4 V"},
		{0, "V", 0, 0, "0 V"},
		{-0.0001, "V", 1, 0.01, "0.00 V"},
		{3, "", 1, 1, "3"},
		{123456, "ohm", 1, 0, "123456 ohm"},
		{math.Inf(1), "ohm", 1, 1, "OL"},
		{math.Inf(-1), "V", 1, 1, "-OL"},
		{math.NaN(), "V", 1, 1, "unknown"},
	}
	for _, r := range rows {
		require.Equal(t, r.want, Format(r.value, r.unit, r.per, r.step))
	}
	require.Equal(t, "12.3..12.7 V", FormatReading(Reading{Kind: Wanders, Low: 12.3, High: 12.7, Step: 0.1}, "V", 1))
	require.Equal(t, "flicker", FormatReading(Reading{Kind: Flicker}, "V", 1))
	require.Equal(t, "OL", FormatReading(Reading{Kind: OverRange}, "V", 1))
	require.Equal(t, "180 mV", FormatReading(Reading{Kind: Number, Value: 0.18, Step: 0.001}, "mV", 0.001))
}
