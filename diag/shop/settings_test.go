package shop

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

func number(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// least is what a shop has to write.
const least = "shop: {currency: EUR, labour rate: 61.5, tax percent: 19, tax on: both}\n"

// The file that is written for a shop without one is what is in use without one.
func TestTheDefaultsAreAFileOfSettings(t *testing.T) {
	s, issues := Read(source.File{Name: "settings.yaml", Text: Defaults})
	require.Empty(t, issues, "%v", issues)
	std := Standard()
	require.Equal(t, std.Settings, s.Settings)
	for i, e := range s.Entries {
		require.Equal(t, []string{std.Entries[i].Section, std.Entries[i].Key, std.Entries[i].Value}, []string{e.Section, e.Key, e.Value})
		require.Equal(t, e.Value == "none named", e.Default(), e.Key)
		require.True(t, std.Entries[i].Default(), e.Key)
	}
	require.False(t, strings.Contains(Defaults, "\t"))
	// What the defaults must be, whatever else is changed.
	require.Equal(t, []any{3, 180, 90, "100", true}, []any{std.Seasons, std.StaleDays, std.ComebackDays, std.ConversionWorth.String(), std.FeeCredited})
	require.Equal(t, "0", std.Labour(60).String())
	require.Equal(t, "0", std.Tax(number("10"), number("10"), number("10")).String())
	for grade, terms := range std.Grades {
		require.True(t, terms.Markup.IsZero(), grade)
		require.Positive(t, terms.WarrantyDays, grade)
		require.True(t, terms.FailPercent.IsPositive(), grade)
	}
}

func TestAFileSaysAllOfIt(t *testing.T) {
	s, issues := Read(source.File{Name: "s.yaml", Text: `shop:
  currency: EUR
  labour rate: "61.50"
  tax parts percent: 19
  tax labour percent: 7
  tax other percent: 0
  seasons: 5
  conversion worth percent: 80
  stale days: 0
  comeback days: 30
  fee credited: no
grades:
  bin: {markup percent: 12.5, fail percent: 20}
bench:
  meters: [bench, pocket]
  tools: [clamp, "load\e[31m tester"]
worth: {walk-behind: "210.00"}
leaving: {part out minutes: 90}
`})
	require.Empty(t, issues, "%v", issues)
	require.Equal(t, []any{5, 0, 30, "80", false}, []any{s.Seasons, s.StaleDays, s.ComebackDays, s.ConversionWorth.String(), s.FeeCredited})
	require.Equal(t, GradeTerms{Markup: number("12.5"), WarrantyDays: 30, FailPercent: number("20")}, s.Grades["bin"], "what it leaves out is the default")
	require.Equal(t, []string{"bench", "pocket"}, s.Meters)
	require.Equal(t, []string{"clamp", "load tester"}, s.Tools, "harmless to print")
	require.Equal(t, "210", s.Worth["walk-behind"].String())
	require.Equal(t, []any{"30", 90}, []any{s.Leaving.AsIsPercent.String(), s.Leaving.PartOutMinutes})
	require.Empty(t, s.TaxOn, "there is no rate for all")

	entry := func(section, key string) Entry {
		for _, e := range s.Entries {
			if e.Section == section && e.Key == key {
				return e
			}
		}
		t.Fatalf("no entry %s %s", section, key)
		return Entry{}
	}
	require.Equal(t, Entry{"grades: bin", "markup percent", "12.5", source.Place{File: "s.yaml", Line: 13, Column: 25, Length: 4}}, entry("grades: bin", "markup percent"))
	require.True(t, entry("grades: bin", "warranty days").Default())
	require.Equal(t, "no", entry("shop", "fee credited").Value)
	require.Equal(t, "210.00", entry("worth", "walk-behind").Value)
	for _, e := range s.Entries {
		require.NotEqual(t, "tax on", e.Key)
	}
	require.Empty(t, s.CheckMeters([]string{"pocket", "bench"}))
	missing := s.CheckMeters([]string{"pocket", "benhc"})
	require.Len(t, missing, 1)
	require.Equal(t, "s.yaml:15:12: no meter is called \"bench\" [unknown-meter]", missing[0].String())
	require.Equal(t, `did you mean "benhc"?`, missing[0].Hint)
	require.Equal(t, []string{"load tester"}, s.Unnamed([]string{"clamp", "anvil"}))
	require.Empty(t, s.Unnamed([]string{"load tester", "clamp"}))
}

// 19 % of 100.00 is 19.00, 7 % of 50.00 is 3.50, 10 % of 8.00 is 0.80.
func TestTaxAtARateForEach(t *testing.T) {
	s, issues := Load(source.File{Text: "shop: {currency: EUR, labour rate: 1, tax parts percent: 19, tax labour percent: 7, tax other percent: 10}"})
	require.Empty(t, issues)
	require.Equal(t, "23.3", s.Tax(number("100"), number("50"), number("8")).String())
	s, issues = Load(source.File{Text: least})
	require.Empty(t, issues)
	require.Equal(t, "30.02", s.Tax(number("100"), number("50"), number("8")).String(), "19 % of 158.00")
	s.TaxOn = TaxParts
	require.Equal(t, "19", s.Tax(number("100"), number("50"), number("8")).String())
}

func TestTheTaxIsToldOnceAndWhole(t *testing.T) {
	with := func(tax string) string { return "shop: {¤currency: EUR, labour rate: 1" + tax + "}\n" }
	for name, c := range map[string]struct {
		text string // ¤ marks where it is reported
		code source.Code
		says string
	}{
		"not at all":     {with(""), shape.CodeMissing, `lacks "tax percent" and "tax on"`},
		"on what":        {with(", tax percent: 5"), shape.CodeMissing, `lacks "tax on"`},
		"both ways":      {"shop: {currency: EUR, labour rate: 1, tax percent: ¤5, tax on: both, tax parts percent: 1, tax labour percent: 1, tax other percent: 1}", CodeTaxTwice, "two ways"},
		"a bit of both":  {"shop: {currency: EUR, labour rate: 1, tax on: ¤both, tax labour percent: 1}", CodeTaxTwice, "two ways"},
		"one of three":   {with(", tax parts percent: 5"), shape.CodeMissing, `lacks "tax labour percent" and "tax other percent"`},
		"a key misspelt": {"shop: {currency: EUR, labour rate: 1, ¤tax percnt: 5, tax on: both}", shape.CodeUnknownField, `did you mean "tax percent"?`},
		"a bad rate":     {"shop: {currency: EUR, labour rate: 1, tax percent: ¤[5], tax on: both}", shape.CodeWrongKind, "one value"},
	} {
		t.Run(name, func(t *testing.T) {
			before, after, _ := strings.Cut(c.text, "¤")
			_, issues := Load(source.File{Name: "s", Text: before + after})
			require.Len(t, issues, 1, "%v", issues)
			require.Equal(t, c.code, issues[0].Code)
			require.Contains(t, issues[0].Message+issues[0].Hint, c.says)
			column := len(before) + 1
			if c.code == shape.CodeMissing {
				column = len("shop: ") + 1 // the whole of it
			}
			require.Equal(t, []int{1, column}, []int{issues[0].Place.Line, issues[0].Place.Column})
		})
	}
}
