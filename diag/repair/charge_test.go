package repair

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// Worked by hand: each example shows its steps.
func TestWorkedQuotes(t *testing.T) {
	tests := []struct {
		name  string
		edit  []string
		found string
		path  string
		want  job.Quote
	}{{
		// Parts 84.00. Labour 48.00 x 10/60 = 8.00. Tax 7.5 % of 84.00 = 6.30.
		// 84.00 + 8.00 + 6.30 = 98.30.
		name: "tax on parts", found: "pack.no-output", path: "new-pack: pack=original",
		want: job.Quote{Currency: "USD", Parts: "84.00", Labour: "8.00", Other: "0.00", Tax: "6.30", Total: "98.30", Minutes: 10},
	}, {
		// Tax 7.5 % of (84.00 + 8.00) = 0.075 x 92.00 = 6.90. Total 98.90.
		name: "tax on both", edit: []string{"tax on: parts", "tax on: both"}, found: "pack.no-output", path: "new-pack: pack=original",
		want: job.Quote{Currency: "USD", Parts: "84.00", Labour: "8.00", Other: "0.00", Tax: "6.90", Total: "98.90", Minutes: 10},
	}, {
		// Labour 49.50 x 10/60 = 8.25. Tax 7.5 % of 83.80 = 6.285, half up 6.29
		// (to even it would be 6.28). Total 83.80 + 8.25 + 6.29 = 98.34.
		name: "halves up", edit: []string{`"48.00"`, `"49.50"`, `"84.00"`, `"83.80"`}, found: "pack.no-output", path: "new-pack: pack=original",
		want: job.Quote{Currency: "USD", Parts: "83.80", Labour: "8.25", Other: "0.00", Tax: "6.29", Total: "98.34", Minutes: 10},
	}, {
		// To 0.05: parts 14.02 / 0.05 = 280.4, so 14.00. Labour 47.00 x 20/60 =
		// 15.6667, / 0.05 = 313.33, so 15.65. Tax 7.5 % of 14.00 = 1.05.
		// Total 30.70.
		name: "to five cents", found: "ground.lossy", path: "new-ground: cable=original",
		edit: []string{`"48.00"`, `"47.00"`, `"14.00"`, `"14.02"`, "warn above percent: 50", `warn above percent: 50, round to: "0.05"`},
		want: job.Quote{Currency: "USD", Parts: "14.00", Labour: "15.65", Other: "0.00", Tax: "1.05", Total: "30.70", Minutes: 20},
	}, {
		// Whole yen: parts 2490. Labour 3001 x 20/60 = 1000.33, so 1000. Tax
		// 10 % of 2490 = 249. Total 3739.
		name: "a currency without small coins", found: "ground.lossy", path: "new-ground: cable=original",
		edit: []string{"USD", "JPY", `"48.00"`, "3001", `"14.00"`, "2490", `"7.5"`, "10", "warn above percent: 50", "warn above percent: 50, round to: 1"},
		want: job.Quote{Currency: "JPY", Parts: "2490", Labour: "1000", Other: "0", Tax: "249", Total: "3739", Minutes: 20},
	}, {
		// Labour 48.00 x 15/60 = 12.00, less than the minimum 25.00. No parts, so
		// no tax on parts. Other: consumables 2.00 + fee 20.00 not credited.
		// Total 25.00 + 22.00 = 47.00.
		name: "minimum labour, consumables, a fee not credited", found: "ground.lossy", path: "clean-ground",
		edit: []string{"warn above", `minimum labour: "25.00", consumables: "2.00", diagnostic fee: "20.00", fee credited: no, warn above`},
		want: job.Quote{Currency: "USD", Parts: "0.00", Labour: "25.00", Other: "22.00", Tax: "0.00", Total: "47.00", Minutes: 15},
	}, {
		// The pack has to be ordered: freight 6.00 once, disposal 3.00. Other
		// 9.00. Tax on both: 7.5 % of (84.00 + 8.00 + 9.00) = 7.575, half up
		// 7.58. Total 84.00 + 8.00 + 9.00 + 7.58 = 108.58.
		name: "freight and disposal", found: "pack.no-output", path: "new-pack: pack=original",
		edit: []string{"tax on: parts", "tax on: both", "lead days: 4", `lead days: 4, freight: "6.00", disposal: "3.00", core deposit: "10.00"`},
		// The deposit of 10.00 is beside it.
		want: job.Quote{Currency: "USD", Parts: "84.00", Labour: "8.00", Other: "9.00", Tax: "7.58", Total: "108.58", Minutes: 10, Deposit: "10.00"},
	}, {
		// In stock there is no freight: 84.00 + 8.00 + 3.00 + 6.30 = 101.30.
		name: "no freight for what is in stock", found: "pack.no-output", path: "new-pack: pack=original",
		edit: []string{"stock: 0, lead days: 4", `stock: 1, lead days: 4, freight: "6.00", disposal: "3.00"`},
		want: job.Quote{Currency: "USD", Parts: "84.00", Labour: "8.00", Other: "3.00", Tax: "6.30", Total: "101.30", Minutes: 10},
	}}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := offersFor(t, edited(t, tt.edit...), Choices{}, tt.found)
			require.Equal(t, tt.want, quoteOf(t, o, tt.path))
		})
	}
}

func quoteOf(t *testing.T, o Offers, id string) job.Quote {
	t.Helper()
	return pathOf(t, o, id).Quote()
}

func pathOf(t *testing.T, o Offers, id string) Path {
	t.Helper()
	all := o.Paths
	for _, f := range o.Folded {
		all = append(all, f.Path)
	}
	for _, p := range all {
		if p.ID == id {
			return p
		}
	}
	require.Contains(t, ids(all), id)
	return Path{}
}

// Two pieces of one part from two repairs: 2 x 14.00 = 28.00, tax 2.10; the
// deposit 2 x 5.00 is beside the total.
func TestPiecesAddUp(t *testing.T) {
	lib, sys := bench()
	lib.Repairs["new-pack"].Parts = append(lib.Repairs["new-pack"].Parts, lib.Repairs["new-ground"].Parts...)
	delete(lib.Repairs, "clean-ground")
	delete(lib.Repairs, "rope-start")
	b := edited(t, "stock: 2", `stock: 2, core deposit: "5.00"`)
	o, err := Paths(lib, sys, verdict(sys, "pack.no-output", "ground.lossy"), b, decimal.Zero, Choices{})
	require.NoError(t, err)
	require.Len(t, o.Paths, 1)
	p := o.Paths[0]
	require.Equal(t, 2, p.Lines[1].Qty)
	require.Equal(t, "28.00 USD", p.Money(p.Lines[1].Sum))
	require.Equal(t, "10.00 USD", p.Money(p.Deposit))
	require.Contains(t, p.Warn, "10.00 USD core deposit on top, back with the old part")
	// 84.00 + 28.00 = 112.00; 30 minutes 24.00; tax 8.40; total 144.40.
	require.Equal(t, "144.40 USD", p.Money(p.Total))
}

// 98.30 of 180.00 is 54.6 %, shown as 55; 81.70 remains. At a limit of 50 % that
// warns, at 55 it doesn't.
func TestShareOfWorth(t *testing.T) {
	p := pathOf(t, offersFor(t, edited(t), Choices{}, "pack.no-output"), "new-pack: pack=original")
	require.Equal(t, "55", p.Share.String())
	require.Equal(t, "81.70", p.Remains.StringFixed(2))
	require.Contains(t, p.Warn, "costs 55 % of what the sound machine is worth (180.00 USD)")

	p = pathOf(t, offersFor(t, edited(t, "percent: 50", "percent: 55"), Choices{}, "pack.no-output"), "new-pack: pack=original")
	require.NotContains(t, p.Warn, "costs 55 % of what the sound machine is worth (180.00 USD)")
}

// The intake's own figure goes before the book's: 98.30 of 90.00 is 109.2 %.
func TestWorthFromIntake(t *testing.T) {
	lib, sys := bench()
	o, err := Paths(lib, sys, verdict(sys, "pack.no-output"), edited(t), decimal.NewFromInt(90), Choices{})
	require.NoError(t, err)
	p := pathOf(t, o, "new-pack: pack=original")
	require.Equal(t, "109", p.Share.String())
	require.Equal(t, "-8.30", p.Remains.StringFixed(2))
}

// Of 180.00: as is 25 % = 45.00; for parts 20 % = 36.00 less an hour at 48.00,
// which leaves -12.00.
func TestLeavingMoney(t *testing.T) {
	o := offersFor(t, edited(t), Choices{}, "pack.no-output")
	require.Equal(t, []string{ChooseAsIs, ChoosePartOut, ChooseReturn}, []string{o.Leave[0].Kind, o.Leave[1].Kind, o.Leave[2].Kind})
	require.Equal(t, "45.00 USD", o.Leave[0].Money(o.Leave[0].Net()))
	require.Equal(t, "-12.00 USD", o.Leave[1].Money(o.Leave[1].Net()))
	require.True(t, o.Leave[1].Known)
}
