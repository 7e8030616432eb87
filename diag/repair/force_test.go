package repair

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"benchlead/diag/shop"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// What follows works the same out by trying everything, in fractions, from what the
// package's description says. It shares no code with what it checks.

// small is a random job: few parts, few repairs, few offers.
type small struct {
	lib     *tree.Library
	system  *tree.System
	verdict walk.Verdict
	book    *PriceBook
	choices Choices
}

// tenths is a random amount, in steps that make for many that are equal.
func tenths(t *rapid.T, most int, what string) decimal.Decimal {
	return decimal.New(int64(rapid.IntRange(0, most).Draw(t, what)), -1)
}

func drawSmall(t *rapid.T) small {
	s := small{lib: &tree.Library{Parts: map[string]*tree.Part{}, Repairs: map[string]*tree.Repair{}}, system: &tree.System{ID: "m"}}
	parts := []string{"a", "b", "c"}
	for _, id := range parts {
		p := &tree.Part{ID: id, Title: id, With: slices.DeleteFunc(slices.Clone(parts), func(o string) bool { return o == id || o == "c" || id == "c" })}
		if l := rapid.SampledFrom([]float64{0, 1, 1.5, 2, 4}).Draw(t, "life"); l > 0 {
			p.Life = &tree.Life{Seasons: l}
		}
		s.lib.Parts[id] = p
	}
	for i := range rapid.IntRange(2, 4).Draw(t, "faults") {
		f := &tree.Fault{ID: fmt.Sprintf("f.%d", i), Title: "A fault", Part: rapid.SampledFrom(parts).Draw(t, "part")}
		s.system.Faults = append(s.system.Faults, f)
		if i < 2 {
			s.verdict.Found = append(s.verdict.Found, walk.Finding{Fault: f})
		} else {
			s.verdict.Untested = append(s.verdict.Untested, walk.Untested{Fault: f})
		}
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "repairs") {
		r := &tree.Repair{ID: fmt.Sprintf("r%d", i), Title: fmt.Sprintf("r%d", i), Systems: []string{"m"}, Kind: rapid.SampledFrom([]tree.RepairKind{tree.Mend, tree.Mend, tree.Conversion}).Draw(t, "kind")}
		r.Minutes = rapid.SampledFrom([]int{5, 10, 20}).Draw(t, "minutes")
		for _, f := range s.system.Faults {
			if rapid.Bool().Draw(t, "clears") {
				r.Clears = append(r.Clears, f.ID)
			}
		}
		for _, id := range parts {
			if n := rapid.IntRange(0, 4).Draw(t, "uses"); n < 2 {
				r.Parts = append(r.Parts, tree.PartUse{Part: id, Qty: n + 1})
			}
		}
		s.lib.Repairs[r.ID] = r
	}
	s.book = drawBook(t, parts)
	s.choices.Suspects = drawSuspects(t, s.system)
	return s
}

func drawBook(t *rapid.T, parts []string) *PriceBook {
	b := &PriceBook{Worth: map[string]decimal.Decimal{"m": tenths(t, 900, "worth")}, Leaving: Leaving{AsIsPercent: decimal.NewFromInt(25), PartOutPercent: decimal.NewFromInt(30), PartOutMinutes: 10}}
	b.Shop = shop.Settings{
		Currency: "USD", RoundTo: decimal.New(1, -2), LabourRate: decimal.NewFromInt(37), MinimumLabour: tenths(t, 80, "minimum"),
		TaxOn: rapid.SampledFrom([]shop.Taxed{shop.TaxParts, shop.TaxBoth, shop.TaxNone}).Draw(t, "tax on"), TaxPercent: decimal.New(75, -1),
		Fee: tenths(t, 50, "fee"), FeeCredited: rapid.Bool().Draw(t, "credited"), Consumables: tenths(t, 20, "consumables"),
		Seasons: rapid.IntRange(1, 5).Draw(t, "seasons"), ConversionWorth: decimal.NewFromInt(80), Grades: map[string]shop.GradeTerms{},
	}
	for _, g := range Grades() {
		b.Shop.Grades[string(g)] = shop.GradeTerms{
			Markup: decimal.NewFromInt(int64(rapid.SampledFrom([]int{0, 33}).Draw(t, "markup"))), FailPercent: tenths(t, 99, "fail"),
			WarrantyDays: rapid.IntRange(0, 1).Draw(t, "warranty"),
		}
	}
	for _, part := range parts {
		for range rapid.IntRange(0, 3).Draw(t, "offers") {
			b.Prices = append(b.Prices, Price{
				Part: part, Grade: rapid.SampledFrom(Grades()).Draw(t, "grade"), Each: tenths(t, 90, "price"),
				Stock: rapid.IntRange(0, 3).Draw(t, "stock"), LeadDays: rapid.IntRange(0, 2).Draw(t, "days"),
				Returnable: rapid.Bool().Draw(t, "returns"), Freight: tenths(t, 20, "freight"), Disposal: tenths(t, 9, "disposal"),
				Core: tenths(t, 9, "core"), Note: fmt.Sprint("n", len(b.Prices)),
			})
		}
	}
	return b
}

// drawSuspects are up to four, in hundredths that come to at most 1.
func drawSuspects(t *rapid.T, sys *tree.System) []Likely {
	var out []Likely
	left := 100
	for range rapid.IntRange(0, 4).Draw(t, "suspects") {
		l := Likely{Gone: rapid.IntRange(0, 5).Draw(t, "gone") == 0}
		for _, f := range sys.Faults {
			if !l.Gone && rapid.Bool().Draw(t, "has") {
				l.Faults = append(l.Faults, f.ID)
			}
		}
		n := min(left, rapid.SampledFrom([]int{0, 5, 6, 30, 50, 70, 100}).Draw(t, "hundredths"))
		left -= n
		l.Probability = float64(n) / 100
		out = append(out, l)
	}
	return out
}

// rat is an amount as a fraction.
func rat(d decimal.Decimal) *big.Rat { return d.Rat() }

func whole(n int) *big.Rat { return big.NewRat(int64(n), 1) }

func sum(xs ...*big.Rat) *big.Rat {
	out := new(big.Rat)
	for _, x := range xs {
		out.Add(out, x)
	}
	return out
}

func mul(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
func sub(x, y *big.Rat) *big.Rat { return new(big.Rat).Sub(x, y) }

// cents is a fraction to the cent, halves up; it may be negative.
func cents(x *big.Rat) *big.Rat {
	n := sum(mul(x, whole(100)), big.NewRat(1, 2))
	if x.Sign() < 0 {
		n = sub(mul(x, whole(100)), big.NewRat(1, 2))
	}
	return new(big.Rat).SetFrac(new(big.Int).Quo(n.Num(), n.Denom()), big.NewInt(100))
}

// forced is one subset of repairs with one offer for each part.
type forced struct {
	key                                    string
	repairs                                []*tree.Repair
	offers                                 map[string]Price
	qty                                    map[string]int
	priced, converts, returns              bool
	minutes, days, poor, open, apart       int
	total, over, margin, deposit, exchange *big.Rat
	clears                                 *big.Rat
}

// key names repairs and offers in an order of its own.
func forcedKey(repairs []*tree.Repair, parts []string) string {
	var ids []string
	for _, r := range repairs {
		ids = append(ids, r.ID)
	}
	slices.Sort(ids)
	slices.Sort(parts)
	return strings.Join(ids, "+") + " " + strings.Join(parts, " ")
}

func (p Path) forcedKey() string {
	var parts []string
	for _, l := range p.Lines {
		parts = append(parts, l.Part.ID+l.Note)
	}
	return forcedKey(p.Repairs, parts)
}

func clearsAll(repairs []*tree.Repair, faults []string) bool {
	for _, f := range faults {
		if !slices.ContainsFunc(repairs, func(r *tree.Repair) bool { return slices.Contains(r.Clears, f) }) {
			return false
		}
	}
	return true
}

// subsets are all of repairs that clear the faults and of which none can be left out.
func (s small) subsets(faults []string) [][]*tree.Repair {
	var all []*tree.Repair
	for i := range 9 {
		if r := s.lib.Repairs[fmt.Sprintf("r%d", i)]; r != nil {
			all = append(all, r)
		}
	}
	var out [][]*tree.Repair
	for bits := range 1 << len(all) {
		var set []*tree.Repair
		for i, r := range all {
			if bits&(1<<i) != 0 {
				set = append(set, r)
			}
		}
		fits := clearsAll(set, faults)
		for i := range set {
			fits = fits && !clearsAll(slices.Delete(slices.Clone(set), i, i+1), faults)
		}
		if fits {
			out = append(out, set)
		}
	}
	return out
}

// every is every subset with every combination of offers.
func (s small) every(faults []string) []*forced {
	var out []*forced
	if len(faults) == 0 {
		return nil
	}
	for _, set := range s.subsets(faults) {
		base := &forced{repairs: set, offers: map[string]Price{}, qty: map[string]int{}, priced: true}
		for _, r := range set {
			for _, u := range r.Parts {
				base.qty[u.Part] += u.Qty
			}
		}
		mixed := []*forced{base}
		for _, part := range []string{"a", "b", "c"} {
			if base.qty[part] > 0 {
				mixed = s.with(mixed, part)
			}
		}
		for _, f := range mixed {
			s.workOut(f)
		}
		out = append(out, mixed...)
	}
	s.wearOut(out)
	return out
}

// with gives each mix every offer of a part.
func (s small) with(mixed []*forced, part string) []*forced {
	var out []*forced
	for _, m := range mixed {
		had := false
		for _, o := range s.book.Prices {
			if o.Part != part || o.Grade == Bin && o.Stock < m.qty[part] {
				continue
			}
			had = true
			next := *m
			next.offers = map[string]Price{part: o}
			for id, old := range m.offers {
				next.offers[id] = old
			}
			out = append(out, &next)
		}
		if !had {
			m.priced = false
			out = append(out, m)
		}
	}
	return out
}
