package repair

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/shop"
	"benchlead/diag/tree"
)

// dec is an amount of a test.
func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// figures are those of a path that a worked example names.
func figures(p Path) map[string]string {
	f := p.money
	out := map[string]string{
		"parts": f(p.Parts), "labour": f(p.Labour), "other": f(p.Other), "tax": f(p.Tax), "total": f(p.Total),
		"out": f(p.Outlay.Total), "out parts": f(p.Outlay.Parts), "out freight": f(p.Outlay.Freight), "out deposits": f(p.Outlay.Deposits),
		"stake": f(p.Risk.Stake), "lost": "unknown", "again": "unknown", "exchange": "unknown", "comeback": "unknown",
		"over": f(p.OverSeasons), "cost": f(p.AtCost), "as is": f(p.AsIs), "after": f(p.After), "margin": f(p.Margin),
	}
	if p.Risk.Known {
		out["lost"] = f(p.Risk.Expected)
	}
	if p.Comeback.Known {
		out["again"], out["exchange"], out["comeback"] = f(p.Comeback.Work), f(p.Comeback.Exchange), f(p.Comeback.Total)
	}
	return out
}

// worked is an example worked by hand.
type worked struct {
	name    string
	edit    []string               // of the price book
	shop    func(s *shop.Settings) // what the settings say besides
	lib     func(l *tree.Library)  // what the library says besides
	found   []string
	choices Choices
	path    string
	want    map[string]string
}

func (w worked) offers(t *testing.T) Offers {
	t.Helper()
	lib, sys := bench()
	b := edited(t, w.edit...)
	if w.shop != nil {
		w.shop(&b.Shop)
	}
	if w.lib != nil {
		w.lib(lib)
	}
	o, err := Paths(lib, sys, verdict(sys, w.found...), b, decimal.Zero, w.choices)
	require.NoError(t, err)
	return o
}

// pack is the line of the pack in the book; more follows it.
const packLine = "stock: 0, lead days: 4, returnable: no}"

// used adds a used pack of 20.00 and an aftermarket one of 50.00, both in hand.
var used = []string{"\nworth:", `
  - {part: pack, grade: aftermarket, price: "50.00", stock: 1}
  - {part: pack, grade: bin, price: "20.00", stock: 1}
worth:`}

// lasts gives the pack a usual life.
func lasts(seasons float64) func(*tree.Library) {
	return func(l *tree.Library) { l.Parts["pack"].Life = &tree.Life{Seasons: seasons, Judgement: "practice"} }
}

// weighed: the pack is dead in 90 of 100, in 18 of them with the starter; in 5 it comes
// and goes, and 5 are on nobody's list.
var weighed = []Likely{
	{Faults: []string{"pack.no-output"}, Probability: 0.72},
	{Faults: []string{"pack.no-output", "starter.open"}, Probability: 0.18},
	{Gone: true, Probability: 0.05},
}

func warranty(s *shop.Settings) {
	s.MinimumLabour = dec("25.00")
	s.Grades = map[string]shop.GradeTerms{
		"original":    {WarrantyDays: 90, FailPercent: dec("3")},
		"aftermarket": {FailPercent: dec("8")}, // no warranty: the customer buys again
	}
}

var examples = []worked{{
	// The book's 84.00 is the shop's cost: 84.00 x 1.35 = 113.40. Labour 48.00 x 10/60 =
	// 8.00. Tax 7.5 % of 113.40 = 8.505, up to 8.51. Total 129.91. Laid out 84.00. At cost
	// 84.00 + 8.00 = 92.00; margin 180.00 - 45.00 - 92.00 = 43.00.
	name: "markup", found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	shop: func(s *shop.Settings) { s.Grades = map[string]shop.GradeTerms{"original": {Markup: dec("35")}} },
	want: map[string]string{"parts": "113.40", "labour": "8.00", "tax": "8.51", "total": "129.91", "out": "84.00", "cost": "92.00", "margin": "43.00"},
}, {
	// Two pieces at 3.35 x 1.33 = 4.4555, each up to 4.46: 8.92, and not 8.911 down to
	// 8.91. Labour 48.00 x 20/60 = 16.00. Tax 7.5 % of 8.92 = 0.669, up to 0.67.
	name: "markup on two pieces", edit: []string{`"14.00"`, `"3.35"`}, found: []string{"ground.lossy"}, path: "new-ground: cable=original",
	shop: func(s *shop.Settings) { s.Grades = map[string]shop.GradeTerms{"original": {Markup: dec("33")}} },
	lib:  func(l *tree.Library) { l.Repairs["new-ground"].Parts[0].Qty = 2 },
	want: map[string]string{"parts": "8.92", "labour": "16.00", "tax": "0.67", "total": "25.59", "out": "0.00", "cost": "22.70"},
}, {
	// A rate for each sort of line: 7.5 % of 84.00 = 6.30, 5 % of 8.00 = 0.40, 2 % of the
	// freight and disposal 9.00 = 0.18; 6.88. Total 84.00 + 8.00 + 9.00 + 6.88 = 107.88.
	name: "a tax rate for each sort of line", found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	edit: []string{packLine, `stock: 0, lead days: 4, returnable: no, freight: "6.00", disposal: "3.00"}`},
	shop: func(s *shop.Settings) {
		s.TaxOn, s.TaxPercent = shop.TaxNone, decimal.Zero
		s.TaxPartsPercent, s.TaxLabourPercent, s.TaxOtherPercent = dec("7.5"), dec("5"), dec("2")
	},
	want: map[string]string{"parts": "84.00", "other": "9.00", "tax": "6.88", "total": "107.88"},
}, {
	// The pack is ordered: 84.00, freight 6.00, deposit 10.00: 100.00 laid out. The cable
	// lies on the shelf: nothing more, though its deposit of 4.00 is the customer's too.
	// The bill: parts 98.00, labour 48.00 x 30/60 = 24.00, freight 6.00, tax 7.35; 135.35.
	name: "core deposits and freight", found: []string{"pack.no-output", "ground.lossy"}, path: "new-pack+new-ground: pack=original, cable=original",
	edit: []string{packLine, `stock: 0, lead days: 4, freight: "6.00", core deposit: "10.00"}`, "stock: 2}", `stock: 2, freight: "9.00", core deposit: "4.00"}`},
	want: map[string]string{"out parts": "84.00", "out freight": "6.00", "out deposits": "10.00", "out": "100.00", "other": "6.00", "total": "135.35"},
}, {
	// Aftermarket pack 50.00, original cable 14.00: 64.00. Labour 24.00, tax 4.80; 92.80.
	// Both in hand, so nothing is laid out. At cost 64.00 + 24.00 = 88.00; margin 47.00.
	name: "grades mixed", edit: used, found: []string{"pack.no-output", "ground.lossy"}, path: "new-pack+new-ground: pack=aftermarket, cable=original",
	want: map[string]string{"parts": "64.00", "labour": "24.00", "tax": "4.80", "total": "92.80", "out": "0.00", "cost": "88.00", "margin": "47.00"},
}, {
	// A used pack: 20.00 + 8.00 + 1.50 = 29.50.
	name: "a piece of the bin", edit: used, found: []string{"pack.no-output"}, path: "new-pack: pack=bin",
	want: map[string]string{"parts": "20.00", "tax": "1.50", "total": "29.50", "out": "0.00", "stake": "0.00", "cost": "28.00"},
}, {
	// Two dear parts: 84.00 + 95.00 = 179.00; labour 48.00 x 55/60 = 44.00; tax 13.425, up
	// to 13.43; total 236.43. Only the pack can't go back: 84.00.
	name: "two dear parts", found: []string{"pack.no-output", "starter.open"}, path: "new-pack+new-starter: pack=original, starter=original",
	want: map[string]string{"parts": "179.00", "labour": "44.00", "tax": "13.43", "total": "236.43", "stake": "84.00", "margin": "-88.00"},
}, {
	// ... beside the conversion: 45.00 + 48.00 + 3.375 up to 3.38 = 96.38. Afterwards the
	// machine is worth 80 % of 180.00 = 144.00: margin 144.00 - 45.00 - 93.00 = 6.00.
	name: "a conversion", found: []string{"pack.no-output", "starter.open"}, path: "rope-start: rope=aftermarket",
	shop: func(s *shop.Settings) { s.ConversionWorth = dec("80") },
	want: map[string]string{"total": "96.38", "as is": "45.00", "after": "144.00", "cost": "93.00", "margin": "6.00"},
}, {
	// The fee of 20.00 goes off the repair: labour 25.00 (the least) + consumables 2.00.
	name: "a credited fee", found: []string{"ground.lossy"}, path: "clean-ground",
	edit: []string{"warn above", `minimum labour: "25.00", consumables: "2.00", diagnostic fee: "20.00", fee credited: yes, warn above`},
	want: map[string]string{"labour": "25.00", "other": "2.00", "total": "27.00", "cost": "14.00"},
}, {
	// Not credited, it is charged besides: 47.00. What the repair costs the shop stays
	// 48.00 x 15/60 + 2.00 = 14.00: nobody pays the shop a fee for its own machine.
	name: "a fee not credited", found: []string{"ground.lossy"}, path: "clean-ground",
	edit: []string{"warn above", `minimum labour: "25.00", consumables: "2.00", diagnostic fee: "20.00", fee credited: no, warn above`},
	want: map[string]string{"other": "22.00", "total": "47.00", "cost": "14.00"},
}, {
	// A new pack clears all in 72 of 100. Doing it again: 48.00 x 10/60 + 25.00 = 33.00,
	// x 0.28 = 9.24. Of original parts 3 of 100 fail: 84.00 x 0.03 = 2.52. Together 11.76.
	name: "a comeback", shop: warranty, choices: Choices{Suspects: weighed}, found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	want: map[string]string{"again": "9.24", "exchange": "2.52", "comeback": "11.76"},
}, {
	// The conversion clears the starter too, 90 of 100: (48.00 + 25.00) x 0.10 = 7.30. Its
	// part has no warranty, so nothing is exchanged.
	name: "a comeback without a warranty", shop: warranty, choices: Choices{Suspects: weighed}, found: []string{"pack.no-output"}, path: "rope-start: rope=aftermarket",
	want: map[string]string{"again": "7.30", "exchange": "0.00", "comeback": "7.30"},
}, {
	// Nobody weighed it: unknown, and not nothing.
	name: "a comeback unknown", shop: warranty, found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	want: map[string]string{"again": "unknown", "exchange": "unknown", "comeback": "unknown", "lost": "unknown", "stake": "84.00"},
}, {
	// The pack isn't dead in 10 of 100 (comes and goes, or on nobody's list): 84.00 x 0.10.
	name: "warranty risk", choices: Choices{Suspects: weighed}, found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	want: map[string]string{"stake": "84.00", "lost": "8.40"},
}, {
	// With the starter found too: it can go back, so only the pack is at stake.
	name: "warranty risk of what can go back", choices: Choices{Suspects: weighed}, found: []string{"pack.no-output", "starter.open"},
	path: "new-pack+new-starter: pack=original, starter=original",
	want: map[string]string{"stake": "84.00", "lost": "8.40"},
}, {
	// With one that can't: it is not open in 82 of 100, 95.00 x 0.82 = 77.90, and 8.40.
	name: "warranty risk of each finding", choices: Choices{Suspects: weighed}, found: []string{"pack.no-output", "starter.open"},
	path: "new-pack+new-starter: pack=original, starter=original", edit: []string{"lead days: 6, returnable: yes", "lead days: 6"},
	want: map[string]string{"stake": "179.00", "lost": "86.30"},
}, {
	// A life of 2 seasons: bought again after 2, before the 3 are over. 98.30 + 84.00 +
	// 6.30 = 188.60.
	name: "three seasons", lib: lasts(2), found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	want: map[string]string{"total": "98.30", "over": "188.60"},
}, {
	// Over five: after 2 and after 4. 98.30 + 168.00 + 12.60 = 278.90.
	name: "five seasons", lib: lasts(2), found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	shop: func(s *shop.Settings) { s.Seasons = 5 },
	want: map[string]string{"over": "278.90"},
}, {
	// A life of 3 ends with the seasons, and one of 2.5 does not.
	name: "worn out just at the end", lib: lasts(3), found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	want: map[string]string{"over": "98.30"},
}, {
	name: "worn out half a season before", lib: lasts(2.5), found: []string{"pack.no-output"}, path: "new-pack: pack=original",
	want: map[string]string{"over": "188.60"},
}, {
	// A used one has half of 4: another used one after 2. 29.50 + 20.00 + 1.50 = 51.00.
	name: "seasons of a used part", edit: used, lib: lasts(4), found: []string{"pack.no-output"}, path: "new-pack: pack=bin",
	want: map[string]string{"total": "29.50", "over": "51.00"},
}, {
	// The pack stays, with half of 4 left; after 2 seasons the cheapest new one follows,
	// 50.00 + 3.75, not the used one. 12.00 + 53.75 = 65.75.
	name: "seasons of what stays", edit: used, lib: lasts(4), found: []string{"ground.lossy"}, path: "clean-ground",
	want: map[string]string{"total": "12.00", "over": "65.75"},
}, {
	// The conversion takes it off for good, which saves that.
	name: "seasons that a conversion saves", edit: used, lib: lasts(4), found: []string{"ground.lossy"}, path: "rope-start: rope=aftermarket",
	want: map[string]string{"total": "96.38", "over": "96.38"},
}}

func TestWorkedExamples(t *testing.T) {
	for _, w := range examples {
		t.Run(w.name, func(t *testing.T) {
			got := figures(pathOf(t, w.offers(t), w.path))
			for name, want := range w.want {
				require.Contains(t, got, name)
				require.Equal(t, want, got[name], name)
			}
		})
	}
}

// What a machine is parted out for counts against what it is worth as it is: 36.00 -
// 48.00 - 45.00 = -57.00. Sold as it is, it leaves 45.00 - 45.00 = 0.00.
func TestMarginOfLeaving(t *testing.T) {
	o := offersFor(t, edited(t), Choices{}, "pack.no-output")
	require.Equal(t, "0.00 USD", o.Leave[0].Money(o.Leave[0].Margin))
	require.Equal(t, "-57.00 USD", o.Leave[1].Money(o.Leave[1].Margin))
}

// What is told of wear: how often, what it costs, and that it is judgement.
func TestWearIsTold(t *testing.T) {
	w := worked{edit: used, lib: lasts(4), found: []string{"ground.lossy"}}
	p := pathOf(t, w.offers(t), "clean-ground")
	require.Len(t, p.Wears, 1)
	require.True(t, p.Wears[0].Stays)
	require.Equal(t, "Battery pack: 1 more within 3 seasons, 53.75 USD; stays, with half of 4 seasons left (judgement)", p.Wears[0].Says)
	require.Equal(t, 3, p.Seasons)

	w.edit, w.found = []string{"\nworth:", `
  - {part: pack, grade: bin, price: "20.00", stock: 1}
worth:`, `  - {part: pack, grade: original, price: "84.00", stock: 0, lead days: 4, returnable: no}` + "\n", ""}, []string{"ground.lossy"}
	p = pathOf(t, w.offers(t), "clean-ground")
	require.True(t, p.Wears[0].Unpriced, "there is no new one in the book")
	require.Contains(t, p.Wears[0].Says, "no price")
	require.True(t, p.OverSeasons.Equal(p.Total))
}

// A used pack of which it is stated that 3 seasons are left outlasts three.
func TestStatedLifeOfAUsedPart(t *testing.T) {
	lib, sys := bench()
	lasts(4)(lib)
	b := edited(t, used...)
	for i := range b.Prices {
		if b.Prices[i].Grade == Bin {
			b.Prices[i].Left = dec("2.5")
		}
	}
	o, err := Paths(lib, sys, verdict(sys, "pack.no-output"), b, decimal.Zero, Choices{})
	require.NoError(t, err)
	p := pathOf(t, o, "new-pack: pack=bin")
	// Worn out after 2.5; one more, and that is the end: 29.50 + 21.50.
	require.Equal(t, "51.00", p.OverSeasons.StringFixed(2))
	require.Contains(t, p.Wears[0].Says, "with 2.5 seasons left as stated")
	for i := range b.Prices {
		b.Prices[i].Left = dec("3")
	}
	o, err = Paths(lib, sys, verdict(sys, "pack.no-output"), b, decimal.Zero, Choices{})
	require.NoError(t, err)
	require.Empty(t, pathOf(t, o, "new-pack: pack=bin").Wears)
}
