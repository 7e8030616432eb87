package money

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]string{"0": "0", "84.00": "84", " 7.5 ": "7.5", "0.1234": "0.1234", "1000000": "1000000"} {
		d, err := Parse(text)
		require.NoError(t, err, text)
		require.Equal(t, want, d.String(), text)
	}
	for _, text := range []string{
		"", "-1", "1,50", "1.234,50", "1e9", "0x10", "1_000", "1.23456", ".5", "5.", "$5", "NaN", "Inf", "1000000.01", "99999999999",
		"٣", "1 000", "1\x1b[31m",
	} {
		_, err := Parse(text)
		require.Error(t, err, text)
		require.NotContains(t, err.Error(), "\x1b", text)
	}
}

// By hand: halves go away from zero, whatever the step; no step is a cent.
func TestRoundAndFormat(t *testing.T) {
	for _, c := range []struct{ numerator, denominator, step, round, shown string }{
		{"1", "3", "0.01", "0.33", "0.33"},
		{"2", "3", "0.01", "0.67", "0.67"},
		{"1", "8", "0.01", "0.13", "0.13"}, // 0.125
		{"-1", "8", "0.01", "-0.13", "-0.13"},
		{"1.0249999", "1", "0.05", "1", "1.00"},
		{"1.025", "1", "0.05", "1.05", "1.05"},
		{"5", "2", "1", "3", "3"},
		{"1", "8", "0.001", "0.125", "0.125"},
		{"1", "8", "0", "0.13", "0.13"},
		{"1", "8", "-1", "0.13", "0.13"},
	} {
		number := decimal.RequireFromString
		got := Round(number(c.numerator), number(c.denominator), number(c.step))
		require.Equal(t, c.round, got.String(), "%v", c)
		require.Equal(t, c.shown, Format(got, number(c.step)), "%v", c)
	}
}
