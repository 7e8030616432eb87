package source

import (
	"strings"
	"unicode/utf8"
)

// formulaStarts are the characters that make spreadsheets take a cell for a
// formula, with their full-width forms: = + - @ by CWE-1236 and OWASP's page on CSV
// injection, the rest from memory and to be on the safe side.
const formulaStarts = "=+-@|%＝＋－＠"

// Cell makes text harmless as a cell of a table: it is cleaned like a line, and
// one that a spreadsheet would take for a formula gets an apostrophe in front, as
// does one that has one. Numbers of our own don't go through it: -12.6 must stay
// a number.
func Cell(s string) string {
	s = CleanLine(s)
	begins, _ := utf8.DecodeRuneInString(strings.TrimSpace(s))
	if strings.HasPrefix(s, "'") || strings.ContainsRune(formulaStarts, begins) {
		return "'" + s
	}
	return s
}
