package repair

import (
	"math/big"
	"slices"

	"benchlead/diag/shop"
	"benchlead/diag/tree"
)

// charged is what the customer pays for one piece.
func (s small) charged(o Price) *big.Rat {
	markup := s.book.Shop.Grades[string(o.Grade)].Markup
	if markup.IsZero() {
		return rat(o.Each)
	}
	return cents(mul(rat(o.Each), sum(whole(1), new(big.Rat).Quo(rat(markup), whole(100)))))
}

func (s small) taxed(parts, rest *big.Rat) *big.Rat {
	base := new(big.Rat)
	switch s.book.Shop.TaxOn {
	case shop.TaxParts:
		base = parts
	case shop.TaxBoth:
		base = sum(parts, rest)
	}
	return cents(mul(base, big.NewRat(75, 1000)))
}

// workOut adds one up, but for its seasons.
func (s small) workOut(f *forced) {
	set := s.book.Shop
	f.returns, f.deposit, f.exchange, f.clears = true, new(big.Rat), new(big.Rat), new(big.Rat)
	parts, cost, beside := new(big.Rat), new(big.Rat), rat(set.Consumables)
	var keys []string
	for part, o := range f.offers {
		n := whole(f.qty[part])
		keys = append(keys, part+o.Note)
		parts, cost = sum(parts, mul(n, s.charged(o))), sum(cost, mul(n, rat(o.Each)))
		beside = sum(beside, mul(n, rat(o.Disposal)))
		f.deposit = sum(f.deposit, mul(n, rat(o.Core)))
		f.poor += slices.Index([]Grade{Original, Aftermarket, Bin}, o.Grade)
		if o.Stock < f.qty[part] {
			beside = sum(beside, rat(o.Freight))
			f.days = max(f.days, o.LeadDays)
			f.returns = f.returns && o.Returnable
		}
		if terms := set.Grades[string(o.Grade)]; terms.WarrantyDays > 0 {
			f.exchange = sum(f.exchange, mul(mul(n, rat(o.Each)), mul(rat(terms.FailPercent), big.NewRat(1, 100))))
		}
	}
	for _, r := range f.repairs {
		f.minutes += r.Minutes
		f.converts = f.converts || r.Kind == tree.Conversion
	}
	f.key, f.exchange = forcedKey(f.repairs, keys), cents(f.exchange)
	work := cents(mul(rat(set.LabourRate), big.NewRat(int64(f.minutes), 60)))
	labour, other := work, cents(beside)
	if least := rat(set.MinimumLabour); labour.Cmp(least) < 0 {
		labour = least
	}
	if !set.FeeCredited {
		other = cents(sum(beside, rat(set.Fee)))
	}
	parts = cents(parts)
	f.total = sum(parts, labour, other, s.taxed(parts, sum(labour, other)))
	worth := rat(s.book.Worth["m"])
	after := worth
	if f.converts {
		after = cents(mul(worth, big.NewRat(80, 100)))
	}
	f.margin = sub(sub(after, cents(mul(worth, big.NewRat(25, 100)))), sum(cents(cost), work, cents(beside)))
	s.leaves(f)
}

// leaves is what stays open, what must match, and how likely all is cleared.
func (s small) leaves(f *forced) {
	for _, u := range s.verdict.Untested {
		if !clearsAll(f.repairs, []string{u.Fault.ID}) {
			f.open++
		}
	}
	for _, l := range s.choices.Suspects {
		if !l.Gone && clearsAll(f.repairs, l.Faults) {
			f.clears = sum(f.clears, hundredths(l.Probability))
		}
	}
	// Only a and b go together.
	a, hasA := f.offers["a"]
	b, hasB := f.offers["b"]
	switch {
	case hasA && hasB && a.Grade != b.Grade:
		f.apart = 1
	case hasA != hasB:
		mate := "a"
		if hasA {
			mate = "b"
		}
		if s.has(mate) && !s.off(f, mate) {
			f.apart = 1
		}
	}
}

func (s small) has(part string) bool {
	return slices.ContainsFunc(s.system.Faults, func(f *tree.Fault) bool { return f.Part == part })
}

// off says whether a conversion takes a part off for good.
func (s small) off(f *forced, part string) bool {
	if _, buys := f.offers[part]; buys {
		return false
	}
	for _, r := range f.repairs {
		for _, fault := range s.system.Faults {
			if r.Kind == tree.Conversion && fault.Part == part && slices.Contains(r.Clears, fault.ID) {
				return true
			}
		}
	}
	return false
}

// wearOut goes through the seasons of all of them, in steps of a quarter.
func (s small) wearOut(all []*forced) {
	for _, f := range all {
		f.over = f.total
		for _, part := range []string{"a", "b", "c"} {
			asked := slices.ContainsFunc(all, func(g *forced) bool {
				_, buys := g.offers[part]
				return buys || s.off(g, part)
			})
			if s.lib.Parts[part].Life != nil && asked {
				f.over = sum(f.over, s.renewals(f, part))
			}
		}
	}
}

func (s small) renewals(f *forced, part string) *big.Rat {
	life := int(s.lib.Parts[part].Life.Seasons * 4) // quarters
	first, next, each := life, life, (*big.Rat)(nil)
	o, buys := f.offers[part]
	switch {
	case buys && o.Grade == Bin:
		first, next = life/2, life/2
		each = mul(s.charged(o), whole(f.qty[part]))
	case buys:
		each = mul(s.charged(o), whole(f.qty[part]))
	case s.off(f, part) || !s.has(part):
		return new(big.Rat)
	default:
		first = life / 2
		for _, o := range s.book.Prices {
			if o.Part == part && o.Grade != Bin && (each == nil || s.charged(o).Cmp(each) < 0) {
				each = s.charged(o)
			}
		}
	}
	times := 0
	for at := first; at < 4*s.book.Shop.Seasons; at += next {
		times++
	}
	if each == nil {
		return new(big.Rat)
	}
	parts := cents(mul(each, whole(times)))
	return sum(parts, s.taxed(parts, new(big.Rat)))
}

// ahead says that f is no worse than g in anything that the description names, and
// better in something; both are priced.
func (f *forced) ahead(g *forced) bool {
	if !f.priced || !g.priced || f.converts != g.converts || g.returns && !f.returns {
		return false
	}
	worse := f.total.Cmp(g.total) > 0 || f.over.Cmp(g.over) > 0 || f.margin.Cmp(g.margin) < 0 || f.deposit.Cmp(g.deposit) > 0 ||
		f.minutes > g.minutes || f.days > g.days || f.open > g.open || f.apart > g.apart || f.clears.Cmp(g.clears) < 0
	better := f.total.Cmp(g.total) < 0 || f.minutes < g.minutes || f.days < g.days
	poorest, best := -1, 3
	for _, o := range f.offers {
		poorest = max(poorest, slices.Index([]Grade{Original, Aftermarket, Bin}, o.Grade))
	}
	for _, o := range g.offers {
		best = min(best, slices.Index([]Grade{Original, Aftermarket, Bin}, o.Grade))
	}
	if len(g.offers) == 0 {
		best = -1
	}
	if slices.Equal(f.repairs, g.repairs) {
		for part, o := range f.offers {
			worse = worse || slices.Index(Grades(), o.Grade) > slices.Index(Grades(), g.offers[part].Grade)
			better = better || slices.Index(Grades(), o.Grade) < slices.Index(Grades(), g.offers[part].Grade)
		}
		return !worse && better
	}
	return !worse && better && poorest <= best
}
