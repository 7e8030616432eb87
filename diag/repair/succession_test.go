package repair

import (
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/money"
	"benchlead/diag/source"
)

// numbers replaces the one price of the pack by lines with numbers.
func numbers(t *testing.T, lines ...string) *PriceBook {
	t.Helper()
	return edited(t, `  - {part: pack, grade: original, price: "84.00", stock: 0, lead days: 4, returnable: no}`, "  - "+strings.Join(lines, "\n  - "))
}

// A number that was replaced, and replaced again, is not offered: the last is.
func TestTheLastNumberIsOffered(t *testing.T) {
	b := numbers(t,
		"{part: pack, grade: original, price: 84, supplier: Nord, number: N-1, replaced by: N-2, stock: 2}",
		"{part: pack, grade: original, price: 88, supplier: Nord, number: N-2, replaced by: N-3}",
		"{part: pack, grade: original, price: 90, supplier: Nord, number: N-3, returnable: yes}",
		"{part: pack, grade: aftermarket, price: 60, supplier: Süd, number: N-1}",
	)
	o := offersFor(t, b, Choices{}, "pack.no-output")
	require.Contains(t, ids(o.Paths), "new-pack: pack=aftermarket (Süd N-1)", "another supplier's number is another thing")
	p := pathOf(t, o, "new-pack: pack=original (Nord N-3)")
	require.Equal(t, "90", p.Lines[0].Each.String())
	require.Equal(t, []string{
		"costs 58 % of what the sound machine is worth (180.00 USD)", // 90.00, 8.00 for ten minutes, tax 6.75: 104.75
		"Battery pack: N-3 replaces N-1, of which 2 are in stock",
		"Battery pack: N-3 replaces N-2",
	}, p.Warn)
	for _, path := range o.Paths {
		require.NotContains(t, path.ID, "N-2")
	}
}

// A replacement without a price leaves the old number, and says so.
func TestAReplacementThatHasNoPrice(t *testing.T) {
	b := numbers(t, "{part: pack, grade: original, price: 20, supplier: Nord, number: N-1, replaced by: N-9, returnable: yes}",
		"{part: cable, grade: bin, price: 20, supplier: Nord, number: N-9}")
	p := pathOf(t, offersFor(t, b, Choices{}, "pack.no-output"), "new-pack: pack=original (Nord N-1)")
	require.Equal(t, []string{"Battery pack: N-1 is replaced by N-9, which has no price"}, p.Warn)
	issues := Missing(b.Prices)
	require.Len(t, issues, 1)
	require.Contains(t, issues[0].Message, "N-9, which has no price for pack")
	require.Equal(t, 4, issues[0].Place.Line)
}

func TestNumbersThatGoRoundAreRefused(t *testing.T) {
	_, issues := LoadPrices(source.File{Name: "p.yaml", Text: `prices:
- {part: a, grade: bin, price: 1, number: "3", replaced by: "1"}
- {part: a, grade: bin, price: 1, number: "1", replaced by: "2"}
- {part: b, grade: bin, price: 1, number: "2", replaced by: "2"}
- {part: a, grade: bin, price: 1, number: "2", replaced by: "3"}
- {part: a, grade: bin, price: 1, number: "0", replaced by: "1"}
- {part: c, grade: bin, price: 1, replaced by: "1"}
`})
	require.Len(t, issues, 3, "%v", issues)
	require.Equal(t, "p.yaml:2:3: a: each number is replaced by the next, in a circle: 3 (p.yaml:2:3), 1 (p.yaml:3:3), 2 (p.yaml:5:3) [replaced-in-a-circle]", issues[0].String())
	require.Equal(t, "p.yaml:4:3: b: each number is replaced by the next, in a circle: 2 (p.yaml:4:3) [replaced-in-a-circle]", issues[1].String())
	require.Equal(t, "p.yaml:7:48: 1 replaces a line that has no number [replaced-by]", issues[2].String())
}

// Whatever replaces what: without a circle every line leads to one that nothing
// replaces, and with one it is reported.
func TestSuccessionEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var prices []Price
		n := rapid.IntRange(1, 8).Draw(t, "lines")
		for i := range n {
			p := Price{Part: "a", Grade: Bin, Number: fmt.Sprint(i)}
			if by := rapid.IntRange(0, n+1).Draw(t, "by"); by < n {
				p.ReplacedBy = fmt.Sprint(by)
			}
			prices = append(prices, p)
		}
		round := false // by following each line n times, without marks
		for i := range prices {
			at, steps := i, 0
			for ; at < n && prices[at].ReplacedBy != "" && steps <= n; steps++ {
				_, err := fmt.Sscan(prices[at].ReplacedBy, &at)
				require.NoError(t, err)
			}
			round = round || steps > n
			if steps <= n {
				require.Equal(t, at, newSuccession(prices).end(i))
			}
		}
		require.Equal(t, round, len(Loops(prices)) > 0)
	})
}

func TestOldPricesAreFlagged(t *testing.T) {
	line := "{part: pack, grade: original, price: 20, returnable: yes, date: 2025-01-03}"
	b := numbers(t, line)
	for today, says := range map[string][]string{
		"":           nil,
		"2025-07-02": nil, // 180 days later
		"2025-07-03": {"Battery pack: price of 2025-01-03, older than 180 days"},
		"2024-12-31": nil,
		"yesterday":  nil,
	} {
		p := pathOf(t, offersFor(t, b.At(today), Choices{}, "pack.no-output"), "new-pack: pack=original")
		require.Equal(t, says, p.Warn, today)
	}
	b.Shop.StaleDays = 0
	require.False(t, b.At("2030-01-01").Stale(b.Prices[0]), "0 days: no price is flagged")
	require.False(t, b.At("2030-01-01").Stale(Price{}), "nobody knows how old it is")
}

func TestDatesAndLongWords(t *testing.T) {
	for text, code := range map[string]source.Code{
		"date: 2025-02-29": CodeDate, "date: 3.1.2025": CodeDate, "date: 1925-01-01": CodeDate, "date: 2025-1-3": CodeDate,
		"supplier: " + strings.Repeat("x", 201): CodeLong, "number: " + strings.Repeat("é", 201): CodeLong,
		"price: -1": money.CodeAmount,
	} {
		given := "price: 1, " + text
		if strings.HasPrefix(text, "price") {
			given = text
		}
		_, issues := LoadPrices(source.File{Name: "p", Text: "prices: [{part: a, grade: bin, " + given + "}]"})
		require.Len(t, issues, 1, text)
		require.Equal(t, code, issues[0].Code)
		if code == CodeLong {
			require.Equal(t, "write at most 200", issues[0].Hint)
		}
	}
	_, issues := LoadPrices(source.File{Name: "p", Text: "prices: [{part: a, grade: bin, price: 1, date: 2024-02-29, supplier: " + strings.Repeat("é", 200) + "}]"})
	require.Empty(t, issues)
}

// Two suppliers, or two numbers of one, are two offers; two lines that differ
// only in price are a slip.
func TestWhatTellsOffersApart(t *testing.T) {
	load := func(lines ...string) source.Issues {
		_, issues := LoadPrices(source.File{Name: "p", Text: "prices:\n- {part: a, grade: bin, price: 1, " + strings.Join(lines, "}\n- {part: a, grade: bin, price: 2, ") + "}\n"})
		return issues
	}
	require.Empty(t, load("supplier: N", "supplier: S", "supplier: N, number: 1", "supplier: N, number: 2", "note: x"))
	require.Equal(t, CodeTwice, load("supplier: N", "supplier: N")[0].Code)
	require.Equal(t, CodeTwice, load("number: 1, note: x", "number: 1, note: y")[0].Code, "a note does not make a number another one")
}

// BenchmarkOffersOfTenThousand is what a price book of that size adds to each list of
// repair paths.
func BenchmarkOffersOfTenThousand(b *testing.B) {
	lib, sys := bench()
	book := NoPrices()
	for i := range 10_000 {
		p := Price{Part: []string{"pack", "cable", "starter", "switch", "rope"}[i%5], Grade: Grades()[i/5%2], Number: fmt.Sprint(i), Date: "2025-01-03"}
		if i%3 == 0 && i >= 5 {
			p.ReplacedBy = fmt.Sprint(i - 5)
		}
		book.Prices = append(book.Prices, p)
	}
	v := verdict(sys, "pack.no-output", "ground.lossy")
	book = book.At("2026-01-01")
	for b.Loop() {
		_, err := Paths(lib, sys, v, book, decimal.Zero, Choices{})
		require.NoError(b, err)
	}
}
