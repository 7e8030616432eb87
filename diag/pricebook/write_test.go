package pricebook

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/repair"
	"benchlead/diag/source"
)

func written(t require.TestingT, prices []repair.Price) string {
	var b strings.Builder
	require.NoError(t, Write(&b, prices))
	return b.String()
}

// drawn is a price as a table or the record could hold it.
func drawn(t *rapid.T) repair.Price {
	words := rapid.StringMatching(`['=+@-]{0,3}[ A-Za-z0-9,;"'=+/üß＝-]{0,12}`)
	text := func(name string) string { return strings.TrimSpace(source.CleanLine(words.Draw(t, name))) }
	amount := func(name string) decimal.Decimal {
		return decimal.New(rapid.Int64Range(0, 9_999_999).Draw(t, name), -rapid.Int32Range(0, 4).Draw(t, name+" places")).Truncate(4)
	}
	p := repair.Price{
		Part:  rapid.SampledFrom([]string{"pack", "cable", "starter"}).Draw(t, "part"),
		Grade: rapid.SampledFrom(repair.Grades()).Draw(t, "grade"),
		Each:  amount("each"), Core: amount("core"), Freight: amount("freight"), Disposal: amount("disposal"),
		Supplier: text("supplier"), Number: text("number"), Set: text("set"), Note: text("note"),
		Stock: rapid.IntRange(0, 100_000).Draw(t, "stock"), LeadDays: rapid.IntRange(0, 730).Draw(t, "days"),
		Returnable: rapid.Bool().Draw(t, "returnable"),
		Date:       rapid.SampledFrom([]string{"", "2026-03-31", "2024-02-29"}).Draw(t, "date"),
	}
	if most := decimal.NewFromInt(1_000_000); p.Each.GreaterThan(most) {
		p.Each = most
	}
	p.Core, p.Freight, p.Disposal = decimal.Min(p.Core, p.Each), decimal.Min(p.Freight, p.Each), decimal.Min(p.Disposal, p.Each)
	if p.Number != "" {
		p.ReplacedBy = rapid.SampledFrom([]string{"", "another"}).Draw(t, "replaced")
	}
	return p
}

// Whatever a book says, its table is read back as the same book, and no cell of it
// begins as a formula does.
func TestATableIsReadBackAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var prices []repair.Price
		seen, spelt := map[repair.Key]bool{}, map[string]string{}
		for range rapid.IntRange(0, 6).Draw(t, "lines") {
			p := drawn(t)
			lower := strings.ToLower(p.Supplier)
			if first, had := spelt[lower]; had {
				p.Supplier = first
			}
			spelt[lower] = p.Supplier
			if !seen[p.Key()] {
				prices = append(prices, p)
			}
			seen[p.Key()] = true
		}
		text := written(t, prices)
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		for _, row := range rows {
			for _, c := range row {
				require.False(t, c != "" && strings.ContainsRune("=+-@＝", []rune(c)[0]), "%q runs in a spreadsheet", c)
			}
		}
		f, issues := Open("t.csv", []byte(text))
		require.Empty(t, issues)
		list, issues := Read(f, Options{Library: shelf()})
		require.Empty(t, issues, "%v\n%s", issues, text)
		require.Empty(t, list.Ignored)
		require.Len(t, list.Prices, len(prices))
		for i, p := range list.Prices {
			require.Empty(t, differ(prices[i], p), "%s", text)
		}
		d := Compare(prices, list, true, "")
		require.Equal(t, len(prices), d.Same)
		require.Empty(t, d.Gone)
	})
}

// What a spreadsheet would run comes back as it was, apostrophes of one's own too.
func TestGuardsAreTakenAway(t *testing.T) {
	for _, text := range []string{"=1+1", "+49 30", "-5", "@SUM(A1)", "＝1+1", "'=1", "'", "''x", "", "N-1", "3/8\" bolt", "it's", "|x", "%x"} {
		require.Equal(t, text, unguarded(source.Cell(text)), text)
	}
	require.Equal(t, "'tis", unguarded("''tis"))
	require.Equal(t, "'tis", unguarded("'tis"), "an apostrophe that guards nothing stays")
}

func FuzzTable(f *testing.F) {
	f.Add("part,grade,price\npack,bin,60\n", "")
	f.Add("part;grade;price;note\ncable;bin;1.234,50;\"a \"\"b\"\"\nc\"\n", ",")
	f.Add("part\tgrade\tprice\npack\tbin\t1,234\n\"", ".")
	f.Add("part,grade,price,supplier,number,replaced by\npack,bin,1,a,1,2\npack,bin,1,a,2,1\n", "")
	f.Fuzz(func(t *testing.T, text, mark string) {
		file, issues := Open("t.csv", []byte(text))
		require.Equal(t, file == nil, len(issues) > 0)
		if file == nil {
			return
		}
		list, issues := Read(file, Options{Library: shelf(), Decimal: Mark(mark)})
		for _, i := range issues {
			require.Positive(t, i.Place.Line, "%v", i)
			require.LessOrEqual(t, i.Place.Line, strings.Count(file.Text, "\n")+1, "%v", i)
			require.Positive(t, i.Place.Column, "%v", i)
		}
		if len(issues) > 0 {
			require.Empty(t, list.Prices)
			return
		}
		// What was read is written and read back as it was.
		again, issues := Open("t.csv", []byte(written(t, list.Prices)))
		require.Empty(t, issues)
		back, issues := Read(again, Options{Library: shelf()})
		require.Empty(t, issues, "%v", issues)
		require.Len(t, back.Prices, len(list.Prices))
		for i := range back.Prices {
			require.Empty(t, differ(list.Prices[i], back.Prices[i]))
		}
	})
}
