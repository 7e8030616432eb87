package source_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"benchlead/diag/source"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestClean(t *testing.T) {
	for given, want := range map[string]string{
		"12.6 V, 4k7 Ω ±1 µA": "12.6 V, 4k7 Ω ±1 µA",
		"a\tb\nc":             "a b\nc",
		"\x1b[31mred\x1b[0m":  "red",
		"\x1b]0;title\ax":     "x",
		"a\r\nb\bc\x7f\a\x00": "a\nbc",
		"\u202Egnp.exe":       "gnp.exe",
		"a\u200Bb\uFEFF":      "ab",
		"\u009b31m":           "31m",
		"a\u2028b\uE000":      "ab",
		"bad\xffbyte":         "bad\uFFFDbyte",
		"क्\u200Dष":           "क्\u200Dष", // the joiner is part of the word
		"e\u0301":             "e\u0301",
	} {
		require.Equal(t, want, source.Clean(given), "%q", given)
	}
	require.Equal(t, "a b c", source.CleanLine("a\nb\tc"))
}

func TestCleanProperty(t *testing.T) {
	harmful := []*unicode.RangeTable{unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co}
	rapid.Check(t, func(t *rapid.T) {
		given := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text")
		clean := source.Clean(given)
		require.True(t, utf8.ValidString(clean))
		for _, r := range clean {
			if r != '\n' && r != '\u200D' {
				require.False(t, unicode.In(r, harmful...), "%q", r)
			}
		}
		require.Equal(t, clean, source.Clean(clean), "cleaning twice changes nothing")
		require.NotContains(t, source.CleanLine(given), "\n")
		require.Equal(t, strings.ReplaceAll(clean, "\n", " "), source.CleanLine(given))
	})
}
