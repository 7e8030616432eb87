package pricebook

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/repair"
)

func bookOf(t *testing.T, text string) []repair.Price {
	t.Helper()
	list, issues := read(t, text, Options{})
	require.Empty(t, issues, "%v", issues)
	return list.Prices
}

const stored = `part,grade,price,supplier,number,stock,date,note
starter,original,160.00,Nordtal,N-1,2,2025-01-03,
starter,aftermarket,84.00,Süd,S-9,0,2025-01-03,
cable,bin,5.00,,,1,,from a sprayer
pack,original,0.00,Nordtal,N-7,0,,
`

func parts(prices []repair.Price) []string {
	var out []string
	for _, p := range prices {
		out = append(out, p.Part+" "+p.Number)
	}
	return out
}

func TestCompare(t *testing.T) {
	list, issues := read(t, "part,grade,price,supplier,number,date\n"+
		"pack,aftermarket,58,Nordtal,N-8,2026-01-31\n"+ // new
		"starter,original,168,Nordtal,N-1,2026-01-31\n"+ // 8.00 on 160.00 are 5 %
		"pack,original,0,Nordtal,N-7,\n", Options{}) // as it was
	require.Empty(t, issues)
	for _, replace := range []bool{false, true} {
		d := Compare(bookOf(t, stored), list, replace, "nordtal")
		require.Equal(t, []string{"pack N-8"}, parts(d.New))
		require.Equal(t, 1, d.Same)
		require.Empty(t, d.Gone, "the others are of another supplier, or of none")
		require.Len(t, d.Changed, 1)
		require.Equal(t, []Field{{"price", "160.00", "168.00"}, {"date", "2025-01-03", "2026-01-31"}}, d.Changed[0].Fields)
		percent, known := d.Changed[0].Percent()
		require.True(t, known)
		require.Equal(t, "5", percent.String())
		require.Equal(t, []string{"starter N-1", "starter S-9", "cable ", "pack N-7", "pack N-8"}, parts(d.Book))
		require.Equal(t, 2, d.Book[0].Stock, "the list has no column for stock: what the book says stays")
	}
	d := Compare(bookOf(t, stored), list, true, "")
	require.Equal(t, []string{"starter S-9", "cable "}, parts(d.Gone))
	require.Equal(t, []string{"starter N-1", "pack N-7", "pack N-8"}, parts(d.Book))
}

func TestPercent(t *testing.T) {
	at := func(old, price string) Change {
		return Change{Old: repair.Price{Each: decimal.RequireFromString(old)}, New: repair.Price{Each: decimal.RequireFromString(price)}}
	}
	for _, c := range []struct{ old, price, want string }{
		{"3", "4", "33.3"}, {"4", "3", "-25"}, {"84", "8400", "9900"}, {"1", "0", "-100"}, {"0", "5", ""}, {"5", "5.00", ""},
	} {
		got, known := at(c.old, c.price).Percent()
		require.Equal(t, c.want != "", known, c)
		if known {
			require.Equal(t, c.want, got.String(), c)
		}
	}
}

// A note tells lines apart only where there is no number.
func TestNotesTellApartWithoutANumber(t *testing.T) {
	list, issues := read(t, "part,grade,price,supplier,number,note\nstarter,original,160,Nordtal,N-1,now in a box\ncable,bin,5,,,from another machine\n", Options{})
	require.Empty(t, issues)
	d := Compare(bookOf(t, stored), list, false, "")
	require.Len(t, d.Changed, 1)
	require.Equal(t, []Field{{"note", "", "now in a box"}}, d.Changed[0].Fields)
	require.Equal(t, []string{"cable "}, parts(d.New))
}
