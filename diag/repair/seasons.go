package repair

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/tree"
)

// Wear is a part that will be worn out and bought again within the seasons.
type Wear struct {
	Part  *tree.Part
	Stays bool            // it is on the machine now, and the path leaves it there
	Times int             // how often it is bought again
	Sum   decimal.Decimal // what the owner pays for that, with tax; no work in it
	// Unpriced: there is no new one in the book, and Sum leaves it out.
	Unpriced bool
	Says     string
}

// two is by what the usual life is divided for a part that was used before.
var two = decimal.NewFromInt(2)

// seasons works out what each path costs over the seasons. Parts that wear count
// where they tell paths apart: those that a path buys, and those of the machine that
// another path buys or takes off for good.
func (a *ask) seasons(paths []Path) {
	wearing := a.wearing(paths)
	for i := range paths {
		p := &paths[i]
		p.Seasons, p.OverSeasons = a.book.Shop.Ahead(), p.Total
		off := a.takenOff(p)
		for _, part := range wearing {
			w, counts := a.wear(p, part, slices.Contains(off, part.ID))
			if counts && w.Times > 0 {
				p.Wears = append(p.Wears, w)
				p.OverSeasons = p.OverSeasons.Add(w.Sum)
			}
		}
	}
}

// wearing are the parts that wear and tell paths apart, by id.
func (a *ask) wearing(paths []Path) []*tree.Part {
	var out []*tree.Part
	add := func(part *tree.Part) {
		if _, wears := life(part); wears && !slices.Contains(out, part) {
			out = append(out, part)
		}
	}
	for i := range paths {
		for _, l := range paths[i].Lines {
			add(l.Part)
		}
		for _, id := range a.takenOff(&paths[i]) {
			add(a.lib.Parts[id])
		}
	}
	slices.SortFunc(out, func(x, y *tree.Part) int { return cmp.Compare(x.ID, y.ID) })
	return out
}

// wear is how a part wears on a machine that took a path. It doesn't count when the
// path takes it off for good, and when the machine has none.
func (a *ask) wear(p *Path, part *tree.Part, off bool) (w Wear, counts bool) {
	whole, _ := life(part)
	half := whole.Div(two)
	w = Wear{Part: part}
	l := p.line(part.ID)
	switch {
	case l != nil && l.Grade == Bin: // the one after it is a used one, too
		first, why := half, fmt.Sprintf("used, so half of %s seasons", whole)
		if l.left.IsPositive() {
			first, why = l.left, fmt.Sprintf("used, with %s seasons left as stated", l.left)
		}
		w.Times = a.bought(first, half)
		w.Sum = a.renewed(l.Sum, w.Times)
		w.Says = a.wearSays(w, why)
	case l != nil:
		w.Times = a.bought(whole, whole)
		w.Sum = a.renewed(l.Sum, w.Times)
		w.Says = a.wearSays(w, fmt.Sprintf("usually lasts %s seasons", whole))
	case off || !a.onMachine(part.ID):
		return w, false
	default:
		w.Stays, w.Times = true, a.bought(half, whole)
		each, ok := a.newOne(part.ID)
		w.Unpriced, w.Sum = !ok, a.renewed(each, w.Times)
		w.Says = a.wearSays(w, fmt.Sprintf("stays, with half of %s seasons left", whole))
	}
	return w, true
}

// bought is how often a part is bought again that is worn out after the first
// seasons, and each later one after the next: at first, first + next, ... as long as
// that is before the seasons are over.
func (a *ask) bought(first, next decimal.Decimal) int {
	open := decimal.NewFromInt(int64(a.book.Shop.Ahead())).Sub(first)
	if !open.IsPositive() {
		return 0
	}
	times, rest := open.QuoRem(next, 0)
	if rest.IsPositive() {
		times = times.Add(money.One)
	}
	return int(times.IntPart())
}

// renewed is what the owner pays for parts bought again, with tax.
func (a *ask) renewed(sum decimal.Decimal, times int) decimal.Decimal {
	shop := a.book.Shop
	parts := shop.Round(sum.Mul(decimal.NewFromInt(int64(times))), money.One)
	return parts.Add(shop.Tax(parts, decimal.Zero, decimal.Zero))
}

// newOne is the cheapest new part in the book, whoever has it in stock.
func (a *ask) newOne(part string) (each decimal.Decimal, ok bool) {
	for _, o := range a.book.offers(part) {
		price := a.book.Shop.Price(string(o.Grade), o.Each)
		if o.Grade != Bin && (!ok || price.LessThan(each)) {
			each, ok = price, true
		}
	}
	return each, ok
}

func (a *ask) wearSays(w Wear, why string) string {
	cost := a.money(w.Sum)
	if w.Unpriced {
		cost = "no price"
	}
	return fmt.Sprintf("%s: %d more within %d seasons, %s; %s (judgement)", w.Part.Title, w.Times, a.book.Shop.Ahead(), cost, why)
}

// leastLife is the shortest life that is counted, in seasons: below that a slip is
// likelier.
var leastLife = decimal.New(1, -1)

// life is how long a part usually lasts, in seasons; false when it lasts.
func life(part *tree.Part) (seasons decimal.Decimal, wears bool) {
	if part == nil || part.Life == nil || math.IsNaN(part.Life.Seasons) || math.IsInf(part.Life.Seasons, 0) {
		return decimal.Zero, false
	}
	seasons = decimal.NewFromFloat(part.Life.Seasons)
	return seasons, seasons.GreaterThanOrEqual(leastLife)
}

// takenOff are the parts that the path's conversions take off for good: those whose
// faults they clear, and those for the bin.
func (a *ask) takenOff(p *Path) []string {
	var out []string
	for _, r := range p.Repairs {
		if r.Kind != tree.Conversion {
			continue
		}
		out = union(out, r.Bin)
		for _, f := range r.Clears {
			if fault := a.system.Fault(f); fault != nil && fault.Part != "" {
				out = union(out, []string{fault.Part})
			}
		}
	}
	return out
}

// onMachine says whether the machine has the part: a fault of the system is its.
func (a *ask) onMachine(part string) bool {
	return slices.ContainsFunc(a.system.Faults, func(f *tree.Fault) bool { return f.Part == part })
}
