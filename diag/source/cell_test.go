package source

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestCell(t *testing.T) {
	for in, want := range map[string]string{
		"":                  "",
		"12.6 V":            "12.6 V",
		"grey mower, 14 hp": "grey mower, 14 hp",
		"=1+1":              "'=1+1",
		"+1":                "'+1",
		"-12.6":             "'-12.6",
		"@sum":              "'@sum",
		"|x":                "'|x",
		"%x":                "'%x",
		"＝1":                "'＝1",
		"  =1":              "'  =1",
		"\t=1":              "' =1",
		"\r\n=1":            "' =1",
		"\x1b[2J=1":         "'=1",
		"'quoted":           "''quoted",
		"two\nlines":        "two lines",
		"a=1":               "a=1",
	} {
		require.Equal(t, want, Cell(in), "%q", in)
	}
}

// Whatever goes in, no spreadsheet takes it for a formula, no row is broken, and
// two texts that differ once they are clean still differ.
func TestACellIsNeverAFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Chance alone hardly ever begins with what this is about.
		begin := rapid.SampledFrom([]string{"", "'", " ", "=", "+", "-", "@", "|", "%", "＝", "＋", "－", "＠"})
		a := begin.Draw(t, "begin a") + rapid.String().Draw(t, "a")
		b := begin.Draw(t, "begin b") + rapid.String().Draw(t, "b")
		cell := Cell(a)
		require.NotContains(t, cell, "\n")
		begins := strings.TrimSpace(cell)
		require.False(t, begins != "" && strings.ContainsRune("=+-@|%＝＋－＠\t\r", []rune(begins)[0]), "%q", cell)
		require.Equal(t, CleanLine(a) == CleanLine(b), cell == Cell(b))
	})
}
