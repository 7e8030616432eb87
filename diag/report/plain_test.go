package report

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/trees/treetest"
)

// Every unit of the shipped trees can be said in words.
func TestEveryUnitHasAWord(t *testing.T) {
	lib, issues := tree.Load(treetest.Read(t, "../..", "trees"))
	require.Empty(t, issues)
	n := 0
	for _, s := range lib.Systems {
		for _, test := range s.Tests {
			if test.Unit != "" {
				require.Contains(t, plainUnits, test.Unit, "%s of %s", test.ID, s.ID)
				n++
			}
		}
	}
	require.Greater(t, n, 100)
}

func TestPlainWords(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		low, high  float64
		unit, want string
	}{
		{12.59, 12.99, "V", "12.6 to 13 volts"},
		{0.02, 0.45, "V", "0.02 to 0.45 volts"},
		{-inf, 0.5, "ohm", "no more than 0.5 ohms"},
		{0, 2, "ohm", "no more than 2 ohms"},
		{1e6, inf, "ohm", "1 million ohms or more"},
		{47000, inf, "ohm", "47,000 ohms or more"},
		{3600, 3600, "rpm", "3600 turns a minute"},
		{1, 1, "s", "1 second"},
		{4.5, 6, "mohm", "4.5 to 6 thousandths of an ohm"},
		{1, inf, "furlong", "1 furlong or more"},
	} {
		require.Equal(t, c.want, rightWords(c.low, c.high, c.unit))
	}
	for v, want := range map[float64]string{0: "0", 12.594: "12.6", 0.04567: "0.0457", 1234: "1234", 12345: "12,345", 2e6: "2 million", 2.5e6: "2,500,000", -3: "-3"} {
		require.Equal(t, want, figures(v), v)
	}
	require.Equal(t, "24 November 2026", plainDay("2026-11-24"))
	require.Equal(t, "soon", plainDay("soon"))
	require.Equal(t, "used, tested by us", plainGrade("bin"))
	require.Equal(t, "odd", plainGrade("odd"))
	require.Equal(t, "Does it glow? It does.", titled("Does it glow?", "it does. "))
	require.Equal(t, "Glass: whole.", titled("Glass", "Whole"))
	require.Empty(t, titled("Glass", ""))
}

func TestReadingsInASentence(t *testing.T) {
	lib := lamp(t)
	for _, c := range []struct{ typed, want string }{
		{"0.310", "Cell while lit: we measured 0.31 volts, where 1.2 to 1.65 volts is right."},
		{"1.480", "Cell while lit: we measured 1.48 volts, which is right."},
		// 0.5 % of 1.203 and 2 counts are 0.008 V, expanded 0.0093: 1.2 is as near.
		{"1.203", "Cell while lit: we measured 1.203 volts, close to the limit of what is right: 1.2 to 1.65 volts."},
		{"1.900", "Cell while lit: we measured 1.9 volts, where 1.2 to 1.65 volts is right."},
		{"OL", "Cell while lit: we measured more than the meter can show."},
		{"flicker", "Cell while lit: we measured a value that jumped and never settled."},
	} {
		d := build(t, lib, log(intake(lib), volts(t, "cell_lit", c.typed)))
		require.Equal(t, c.want, d.Readings[0].Taken[0].plain.sentence(), c.typed)
	}
	d := build(t, lib, log(intake(lib), volts(t, "cell_lit", "1.480"), volts(t, "bulb_lit", "1.380")))
	// 1.480 - 1.380 = 0.1 V, shown in thousandths
	require.Equal(t, "Volts lost in the switch: we worked out 100 thousandths of a volt.", d.Readings[2].Taken[0].plain.sentence())
}

// What the meter can't tell from a limit is not said to lie beyond it, where the
// limit is zero or what is right is one value alone too.
func TestTooCloseIsNeverTooLowOrTooHigh(t *testing.T) {
	limit := func(text string) *formula.Formula {
		number, _ := formula.DimensionOf("")
		f, issues := formula.Compile(text, source.Origin{}, formula.Names{}, number)
		require.Empty(t, issues)
		return f
	}
	for _, c := range []struct {
		number   float64
		from, to string
		want     string
	}{
		// Standard 0.005, expanded 0.01: what is nearer than that can't be told.
		{-0.004, "0", "2", plainRight},
		{-0.02, "0", "2", plainLow},
		{1.996, "2", "2", plainRight},
		{2.004, "2", "2", plainRight},
		{1.98, "2", "2", plainLow},
		{2.02, "2", "2", plainHigh},
		{1.004, "1", "2", plainClose},
		{0.996, "1", "2", plainClose},
		{0.98, "1", "2", plainLow},
		{1.5, "1", "2", plainRight},
	} {
		test := &tree.Test{Healthy: &tree.Span{From: limit(c.from), To: limit(c.to)}}
		p := plain(walk.Result{Test: test, Mark: walk.Read, Estimate: measure.Estimate{Value: c.number, Own: 0.005}}, formula.Values{})
		require.Equal(t, c.want, p.judged, "%v of %s to %s", c.number, c.from, c.to)
	}
}

// What is drawn keeps to its line, its order and its numbers.
func TestAScaleIsDrawnToMeasure(t *testing.T) {
	number := rapid.Custom(func(t *rapid.T) float64 {
		v := rapid.Float64Range(-1, 1).Draw(t, "figure") * math.Pow(10, float64(rapid.IntRange(-6, 8).Draw(t, "power")))
		return v
	})
	rapid.Check(t, func(t *rapid.T) {
		low, high := number.Draw(t, "low"), number.Draw(t, "high")
		low, high = math.Min(low, high), math.Max(low, high)
		switch rapid.IntRange(0, 2).Draw(t, "open") {
		case 0:
			low = math.Inf(-1)
		case 1:
			high = math.Inf(1)
		}
		was := plainly{number: number.Draw(t, "before"), low: low, high: high, drawn: true}
		is := plainly{number: number.Draw(t, "after"), low: low, high: high, drawn: true}
		s := scaleOf("", []string{markBefore, markAfter}, was, is)
		require.Len(t, s.Marks, 2)
		require.True(t, 0 <= s.From && s.From <= s.To && s.To <= 1, "%v", s)
		for _, m := range s.Marks {
			require.True(t, 0 <= m.At && m.At <= 1, "%v", m)
		}
		if was.number < is.number {
			require.LessOrEqual(t, s.Marks[0].At, s.Marks[1].At)
		}
		for i, p := range []plainly{was, is} {
			if p.number < low {
				require.LessOrEqual(t, s.Marks[i].At, s.From)
			}
			if p.number > high {
				require.GreaterOrEqual(t, s.Marks[i].At, s.To)
			}
		}
		stretch := s.Stretch()
		require.GreaterOrEqual(t, stretch[1], scaleLeast)
		require.True(t, stretch[0] >= scaleLeft && stretch[0]+stretch[1] <= scaleLeft+scaleWide+1e-9, "%v", stretch)
		for _, l := range s.Labels() {
			require.True(t, l.X > scaleLeft && l.X < scaleLeft+scaleWide, "%v", l)
		}
	})
}
