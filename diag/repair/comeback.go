package repair

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/tree"
)

// Comeback is what a path is expected to cost the shop because the machine comes
// back. While nobody weighed the suspects it is not known, which is not nothing.
type Comeback struct {
	Known    bool
	Clears   decimal.Decimal // how likely the path clears all that is wrong, 0 to 1
	Work     decimal.Decimal // expected: doing it again, unpaid
	Exchange decimal.Decimal // expected: parts under warranty, at cost
	Total    decimal.Decimal
	Says     string
}

// Risk is money in parts that are ordered and can't go back, should what they are
// bought for not be wrong.
type Risk struct {
	Known    bool
	Stake    decimal.Decimal // such parts, at cost; known in any case
	Expected decimal.Decimal
}

// again is what doing a path again costs the shop, in sixtieths: its minutes, and the
// least that a job is charged.
func (a *ask) again(minutes int) decimal.Decimal {
	s := a.book.Shop
	return s.LabourRate.Mul(decimal.NewFromInt(int64(minutes))).Add(s.MinimumLabour.Mul(money.Sixty))
}

// exchange is the cost of parts that fail under warranty, in hundredths. A grade
// without a warranty has none.
func (a *ask) exchange(lines []Line) decimal.Decimal {
	sum := decimal.Zero
	for _, l := range lines {
		if terms := a.book.Shop.Grades[string(l.Grade)]; terms.WarrantyDays > 0 {
			sum = sum.Add(l.atCost().Mul(terms.FailPercent))
		}
	}
	return sum
}

// expect works out what wrong guesses and failed parts are expected to cost.
func (a *ask) expect(p *Path) {
	stake, lost := decimal.Zero, decimal.Zero
	for _, l := range p.Lines {
		if l.stuck() {
			stake = stake.Add(l.atCost())
			lost = lost.Add(l.atCost().Mul(a.belief.wrong(a.boughtFor(p, l))))
		}
	}
	shop := a.book.Shop
	p.Risk.Stake = shop.Round(stake, money.One)
	if !a.belief.known() {
		p.Comeback.Says = "what it may cost when it comes back is not known: no suspects were weighed"
		return
	}
	p.Risk.Known, p.Risk.Expected = true, shop.Round(lost, money.One)
	p.Holds = a.belief.holds(p.Repairs)
	c := Comeback{Known: true, Clears: a.belief.clears(p.Repairs)}
	c.Work = shop.Round(money.One.Sub(c.Clears).Mul(a.again(p.Minutes)), money.Sixty)
	c.Exchange = shop.Round(a.exchange(p.Lines), money.Hundred)
	c.Total = c.Work.Add(c.Exchange)
	c.Says = fmt.Sprintf("%s %% likely to clear all that is wrong; %s to expect for coming back", percent(c.Clears), p.Money(c.Total))
	p.Comeback = c
}

// percent is a share in whole percent; what is nearly sure is never 100, and what may
// be never 0.
func percent(p decimal.Decimal) string {
	whole := p.Mul(money.Hundred).Round(0)
	if whole.Equal(money.Hundred) && p.LessThan(money.One) {
		return "over 99"
	}
	if whole.IsZero() && p.IsPositive() {
		return "under 1"
	}
	return whole.String()
}

// boughtFor are the findings for which the path buys a line.
func (a *ask) boughtFor(p *Path, l Line) []string {
	var out []string
	for _, f := range a.found {
		uses := func(r *tree.Repair) bool {
			return slices.Contains(r.Clears, f.ID) && slices.ContainsFunc(r.Parts, func(u tree.PartUse) bool { return u.Part == l.Part.ID })
		}
		if slices.ContainsFunc(p.Repairs, uses) {
			out = append(out, f.ID)
		}
	}
	return out
}
