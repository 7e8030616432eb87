package screen

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEveryFigureIsWhole(t *testing.T) {
	for _, r := range "0123456789.,:-+?' ABCDEFGHIJKLMNOPQRSTUVWXYZ" {
		rows, ok := font[r]
		require.True(t, ok, "%c", r)
		for _, row := range rows {
			require.Len(t, row, len(rows[0]), "%c", r)
			require.Empty(t, strings.Trim(row, " #"), "%c", r)
		}
	}
}

// No two signs look alike, so that none is read for another; a nought and an O do,
// as they do on a meter's display.
func TestFiguresDiffer(t *testing.T) {
	seen := map[[figureRows]string]rune{}
	for r, rows := range font {
		require.Zero(t, seen[rows], "%c", r)
		seen[rows] = r
	}
}

func TestFiguresFit(t *testing.T) {
	require.Equal(t, []string{"    a/b"}, figures("a/b", 80, 20), "a sign without a figure is written plainly")
	require.Len(t, figures("12.6", 80, 20), 15)
	require.Len(t, figures("12.6", 80, 14), 10)
	require.Len(t, figures("12.6", 40, 20), 5)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9.:A-Z ]{1,20}`).Draw(t, "text")
		width, height := rapid.IntRange(leastWidth, 130).Draw(t, "width"), rapid.IntRange(1, 40).Draw(t, "height")
		out := figures(text, width, height)
		require.LessOrEqual(t, len(out), height)
		for _, l := range out {
			require.LessOrEqual(t, ansi.StringWidth(l), width)
		}
	})
}
