package source

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// zeroWidthJoiner stays in text: some scripts can't be written without it, and
// it moves nothing.
const zeroWidthJoiner = '\u200D'

// Clean makes text from outside harmless for a terminal: escape sequences,
// control characters, marks that turn the direction of writing, and invisible
// ones are taken out; broken UTF-8 becomes U+FFFD and a tab a space. Line ends
// stay.
func Clean(s string) string {
	if printable(s) {
		return s
	}
	s = ansi.Strip(strings.ToValidUTF8(s, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case harmful(r):
			return -1
		}
		return r
	}, s)
}

// printable spares the search in text that is nothing but printable ASCII.
func printable(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// CleanLine is Clean for text that must stay on one line: line ends become
// spaces.
func CleanLine(s string) string {
	return strings.ReplaceAll(Clean(s), "\n", " ")
}

// harmful reports characters that a terminal acts on instead of showing:
// control, format (direction marks, zero width), line and paragraph
// separators, private use (Unicode general categories Cc, Cf, Zl, Zp, Co).
func harmful(r rune) bool {
	if r == zeroWidthJoiner {
		return false
	}
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co)
}
