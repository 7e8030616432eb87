package formula

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

// A hint names what to write, not only what is wrong.
func TestHintsNameTheWayOut(t *testing.T) {
	names := Names{
		Numbers: map[string]Dimension{"amps": Amps},
		Words:   map[string][]string{"toggle": {"on", "off"}},
	}
	for text, hint := range map[string]string{
		"0.6 / amps":               "a number here has no unit: give it a name and its unit:, in volts, under label: or a circuit's values:",
		`toggle = "on" ? 1 : 2`:    "to compare words write ==",
		"toggle == on ? 1 : 2":     `a word stands in quotes: "on"`,
		"toggle == offf ? 1.0 : 2": "",
	} {
		_, issues := Compile(text, source.Roughly(source.Place{File: "x", Line: 1, Column: 1}), names, Ohms)
		require.NotEmpty(t, issues, text)
		if hint == "" {
			require.NotContains(t, issues[0].Hint, "quotes: ", text)
			continue
		}
		require.Contains(t, issues[0].Hint, hint, text)
	}
}
