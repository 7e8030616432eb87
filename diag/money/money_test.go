package money

import (
	"testing"

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
