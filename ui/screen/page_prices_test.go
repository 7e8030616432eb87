package screen

import (
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/repair"
	"benchlead/ui"
)

// shelf is a bench with many prices of the parts that its trees have.
func shelf(t testing.TB, n int) ui.Bench {
	t.Helper()
	b := bench(t, small)
	all := make([]repair.Price, n)
	for i := range all {
		all[i] = repair.Price{
			Part: []string{"bat", "sw", "wire", "chg"}[i%4], Grade: repair.Grades()[i/4%2], Supplier: fmt.Sprint("Supplier ", i%17),
			Number: fmt.Sprintf("NR-%05d", i), Each: decimal.New(int64(i), -2), LeadDays: i % 9, Note: fmt.Sprintf("Lot %d of the spring list", i),
		}
	}
	book := repair.NewBook(all)
	book.Shop = b.Prices.Shop
	b.Prices, b.PriceNote = book.At("2026-03-02"), "The prices are the record's own."
	return b
}

// Every key narrows the list down; Esc first closes the price, then empties the line,
// then goes back.
func TestPricesAreSearchedAsTheyAreTyped(t *testing.T) {
	d := drive(t, shelf(t, 10_000))
	d.keys("p")
	require.Contains(t, d.View(), "Prices: 10000")
	require.Contains(t, d.View(), "The prices are the record's own.")
	for _, step := range []struct {
		key  string
		left string
	}{{"n", "10000"}, {"r", "10000"}, {"-", "10000"}, {"0", "10000"}, {"4", "1000"}, {"2", "100"}, {"7", "10"}, {"7", "1"}} {
		d.keys(step.key)
		require.Contains(t, d.View(), "Prices with these words: "+step.left+"\n", "after %s", step.key)
	}
	require.Contains(t, d.View(), "> sw", "4277 leaves a remainder of 1")
	d.keys("<enter>")
	require.Regexp(t, `(?m)^  number +NR-04277$`, d.View())
	d.keys("<esc>")
	require.Contains(t, d.View(), "> sw")
	d.keys("<esc>")
	require.Contains(t, d.View(), "Prices: 10000")
	d.keys("<esc>")
	require.Contains(t, d.View(), "No jobs yet")
	require.Empty(t, d.input.text(), "what was looked for is no job's number")
}

// The cursor moves and stays in the list; more words begin at the top; no letter of
// a search is a command.
func TestTheCursorAmongPrices(t *testing.T) {
	d := drive(t, shelf(t, 2_000))
	for _, size := range [][2]int{{80, 24}, {leastWidth, leastHeight}} {
		d.size(size[0], size[1])
		d.keys("p")
		d.keys(strings.Repeat("<pgdown> ", 300))
		require.Contains(t, d.View(), "And 1500 more: type more words.")
		require.Equal(t, mostPrices-1, d.over.prices.at)
		d.keys("<enter>")
		require.Regexp(t, `number +NR-00499`, d.View())
		d.keys("<down> <up>")
		require.Regexp(t, `number +NR-00498`, d.View(), "its neighbour, in full")
		d.keys("q <up>")
		require.Equal(t, 0, d.over.prices.at)
		require.Contains(t, d.View(), "No price has these words")
		d.keys("<enter> <esc> <esc>")
		require.Nil(t, d.over)
	}
}

func TestABookWithoutPrices(t *testing.T) {
	b := bench(t, small)
	for _, book := range []*repair.PriceBook{nil, repair.NoPrices()} {
		b.Prices = book
		d := drive(t, b)
		d.keys("p <enter> <down> <pgup> x <esc>")
		require.Contains(t, d.View(), "The book has no prices.")
	}
}

// BenchmarkPriceKey is a key on the page of a large book, with what it draws.
func BenchmarkPriceKey(b *testing.B) {
	d := drive(b, shelf(b, 10_000))
	d.keys("p")
	for b.Loop() {
		d.keys("l") // "lot": the words of every price
		_ = d.View()
		d.keys("<backspace>")
		_ = d.View()
	}
}
