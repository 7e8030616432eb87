package screen

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/tree"
	"benchlead/ui"
)

func TestSketchMarksTheLeads(t *testing.T) {
	s := tree.Sketch{
		Marks: map[string]string{"a": "pos", "b": "neg", "c": "stud"},
		Lines: []string{" {a}--fuse--{c}--.", " {b}=[m]=----{c}'", "{z} {c} {", "no mark"},
	}
	require.Equal(t, []string{" [R]--fuse---o---.", " [B]=[m]=-----o-'", " o   o  {", "no mark"}, drawSketch(s, "pos", "neg"))
	require.Equal(t, "  o---fuse--[R]--.", drawSketch(s, "stud", "")[0])
	require.False(t, marked(drawSketch(s, "elsewhere", "")))
	require.Empty(t, drawSketch(tree.Sketch{}, "pos", "neg"))
}

func TestPartOfASketchHoldsBothLeads(t *testing.T) {
	lines := []string{"0", "1 [R]", "2", "3 [B]", "4", "5"}
	require.Nil(t, part(lines, 2))
	require.Equal(t, lines[1:4], part(lines, 3))
	require.Equal(t, lines[1:5], part(lines, 4))
	require.Equal(t, lines[0:6], part(lines, 9))
	require.Nil(t, part([]string{"no lead"}, 9))
}

func TestBandsInWords(t *testing.T) {
	b := &ui.BandLine{
		Names: []string{"good", "fair", "bad"}, Cuts: []string{"0.15 V", "0.35 V"},
		At: 0.5, From: 0.4, To: 0.6, Best: 1, Sure: true, Says: "0.25 +- 0.02 V: fair, sure",
	}
	// 29 cells: bars and names take 15, and the 14 dashes are shared evenly.
	require.Equal(t, "|--good---|--fair---|--bad--|", drawBands(b, newStyles(nil), 29)[1])
	rows := drawBands(b, newStyles(nil), 80)
	require.Len(t, rows, 3)
	for i, cut := range []string{"0.15", "0.35 V"} {
		bar := strings.Split(rows[1], "|")[:i+2]
		require.InDelta(t, len(strings.Join(bar, "|")), strings.Index(rows[0], cut)+2, 1, "the limit stands over its bar")
	}
	at := strings.Index(rows[2], "^")
	require.Equal(t, rows[1][at-2:at+2], "fair"[0:4], "the reading stands in the middle of its band")
	require.Contains(t, rows[2], "fair, sure")

	b.At = math.NaN()
	require.Empty(t, drawBands(b, newStyles(nil), 80)[2], "the row stays, so that nothing moves when a number is typed")
	require.Nil(t, drawBands(nil, newStyles(nil), 80))
	require.Nil(t, drawBands(b, newStyles(nil), 5))
}

// TestPointerStandsInItsBand: whatever the names and the width, the reading is
// drawn between the bars of the band it lies in, and no row is too wide.
func TestPointerStandsInItsBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,20}`), 1, 8).Draw(t, "names")
		width := rapid.IntRange(2*len(names)+1, 130).Draw(t, "width")
		b := &ui.BandLine{Names: names, Says: rapid.StringMatching(`[a-z0-9 +().:-]{0,60}`).Draw(t, "says")}
		for range len(names) - 1 {
			b.Cuts = append(b.Cuts, rapid.StringMatching(`-?[0-9]{1,3}(\.[0-9]{1,2})? (V|mohm)`).Draw(t, "cut"))
		}
		b.Best = rapid.IntRange(0, len(names)-1).Draw(t, "band")
		n := float64(len(names))
		b.At = (float64(b.Best) + rapid.Float64Range(0.05, 0.95).Draw(t, "at")) / n
		b.From = b.At - rapid.Float64Range(0, 1).Draw(t, "below")
		b.To = b.At + rapid.Float64Range(0, 1).Draw(t, "above")
		starts := slots(names, width)
		require.Less(t, starts[len(names)], width)
		at := column(b.At, starts)
		require.GreaterOrEqual(t, at, starts[b.Best])
		require.LessOrEqual(t, at, starts[b.Best+1])
		for _, row := range drawBands(b, newStyles(nil), width) {
			require.LessOrEqual(t, ansi.StringWidth(row), width)
		}
	})
}

func TestWindowNeverHidesALineForGood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := make([]string, rapid.IntRange(0, 60).Draw(t, "lines"))
		for i := range lines {
			lines[i] = string(rune('A' + i))
		}
		height := rapid.IntRange(2, 40).Draw(t, "height")
		seen := map[string]bool{}
		for from := range len(lines) + 1 {
			shown, at := window(lines, from, height)
			require.Len(t, shown, height)
			require.LessOrEqual(t, at, from)
			for _, l := range shown {
				seen[l] = true
			}
		}
		for _, l := range lines {
			require.True(t, seen[l])
		}
	})
}

// TestPagesLoseNothing goes through texts of every length in windows of every
// height: each page begins with a line of the one before, and all are seen.
func TestPagesLoseNothing(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	for height := 3; height <= 40; height++ {
		for n := range 130 {
			lines := make([]string, n)
			for i := range lines {
				lines[i] = fmt.Sprint(i)
			}
			o := &over{lines: lines}
			read := func() []string {
				var out []string
				for _, l := range o.body(newStyles(nil), 80, height+overHead)[overHead:] {
					if l != "" && !strings.HasPrefix(l, "--") {
						out = append(out, l)
					}
				}
				return out
			}
			all, before := map[string]bool{}, -1
			for o.seen != before {
				shown := read()
				for _, l := range shown {
					all[l] = true
				}
				before = o.seen
				o.move(pageOf(height))
				if next := read(); height > 3 && o.seen != before {
					require.Contains(t, shown, next[0], "%d lines, %d high", n, height)
				}
			}
			require.Len(t, all, n, "%d high", height)
		}
	}
}

func TestLimitsInSeveralUnits(t *testing.T) {
	b := &ui.BandLine{
		Names: []string{"shorted", "leaky", "fair", "good"}, Cuts: []string{"20 ohm", "1000 ohm", "100 kohm"},
		At: math.NaN(), Best: -1,
	}
	for width := 50; width < 110; width++ {
		rows := drawBands(b, newStyles(nil), width)
		for i, cut := range b.Cuts {
			at := strings.Index(rows[0], cut)
			require.GreaterOrEqual(t, at, 0, "%s at %d", cut, width)
			bar := len(strings.Join(strings.Split(rows[1], "|")[:i+2], "|"))
			number, _, _ := strings.Cut(cut, " ")
			require.InDelta(t, bar, at+len(number)/2, 1, "%s at %d stands over its bar", cut, width)
		}
	}
	b.Cuts = []string{"20 ohm", "100 ohm", "1000 ohm"}
	require.NotContains(t, drawBands(b, newStyles(nil), 80)[0], "20 ohm", "one unit is written once")
}

func TestShareAddsUp(t *testing.T) {
	for height := leastHeight; height < 60; height++ {
		for foot := range 40 {
			l := share(80, height, foot)
			require.Equal(t, height, fixed+l.body+l.foot)
			require.GreaterOrEqual(t, l.body, 3)
		}
	}
}

func TestWrapKeepsToTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		width := rapid.IntRange(1, 100).Draw(t, "width")
		for _, l := range append(wrap(text, width), hang("12. ", text, width)...) {
			require.LessOrEqual(t, ansi.StringWidth(l), width)
			require.NotContains(t, l, "\n")
			require.NotContains(t, l, "\x1b")
		}
		require.LessOrEqual(t, ansi.StringWidth(short(text, width)), width)
		require.LessOrEqual(t, ansi.StringWidth(ends(text, text, width)), width)
		require.LessOrEqual(t, ansi.StringWidth(rule(text, text, width/2, width)), width)
	})
}

func TestOneLineKeepsTheHazardAndSaysThatThereIsMore(t *testing.T) {
	c := "Battery gas. Keep flames away. Glasses on. Moving air while it is charged, and the charger off before its clips."
	require.Equal(t, "Battery gas. Keep flames away. Glasses on. (? for all)", oneLine(c, 60))
	require.Equal(t, "Battery gas. (? for all)", oneLine(c, 30))
	require.Equal(t, "Short. Fits.", oneLine("Short. Fits.", 30))
	require.LessOrEqual(t, len(oneLine(strings.Repeat("long", 30), 30)), 30)
}

func TestInputEditing(t *testing.T) {
	in := &input{}
	for _, step := range []struct{ key, want string }{
		{"1", "> 1_"},
		{"3", "> 13_"},
		{"<left>", "> 1|3"},
		{"2", "> 12|3"},
		{"<backspace>", "> 1|3"},
		{"<delete>", "> 1_"},
		{"<home>", "> |1"},
		{"<end>", "> 1_"},
		{"<right>", "> 1_"},
		{"<ctrl+u>", "> _"},
	} {
		for _, k := range keysOf(step.key) {
			in.press(k)
		}
		require.Equal(t, step.want, in.view(20), step.key)
	}
	in.set("note smells of fuel")
	in.press(keysOf("<ctrl+w>")[0])
	require.Equal(t, "note smells of ", in.text())
	in.set(strings.Repeat("x", 50) + "END")
	require.Equal(t, "> <xxxxxxxxxxxxxEND_", in.view(20))
	in.set("")
	in.insert(strings.Repeat("y", longestInput+5))
	require.Len(t, in.chars, longestInput)
	require.False(t, (&input{}).press(key{name: "left"}), "with nothing typed an arrow scrolls")
}

// Nothing is lost of a text, wherever its lines have to be broken: no sign of an
// uncertainty, no dash.
func TestNoLineLosesALetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,9}|-|\+-|-?[0-9]{1,2}\.[0-9]|[a-z]{2,5}-[a-z]{2,5}|[a-z]{2,5}-`), 1, 30).Draw(t, "words")
		width := rapid.IntRange(20, 80).Draw(t, "width")
		got := strings.Join(wrap(strings.Join(words, " "), width), "")
		require.Equal(t, strings.Join(words, ""), strings.ReplaceAll(got, " ", ""))
	})
}
