package repair

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/money"
)

// Outlay is what the shop lays out before the customer pays: all that has to be
// ordered. What lies on the shelf was paid before.
type Outlay struct {
	Parts    decimal.Decimal // ordered, at cost
	Freight  decimal.Decimal
	Deposits decimal.Decimal // on ordered parts; back with the old ones
	Total    decimal.Decimal
}

// layOut adds up what the shop lays out. Each line is rounded once.
func (a *ask) layOut(p *Path) {
	var o Outlay
	for _, l := range p.Lines {
		if !l.InHand {
			o.Parts, o.Freight, o.Deposits = o.Parts.Add(l.atCost()), o.Freight.Add(l.freight), o.Deposits.Add(l.core)
		}
	}
	round := func(d decimal.Decimal) decimal.Decimal { return a.book.Shop.Round(d, money.One) }
	o.Parts, o.Freight, o.Deposits = round(o.Parts), round(o.Freight), round(o.Deposits)
	o.Total = decimal.Sum(o.Parts, o.Freight, o.Deposits)
	p.Outlay = o
}

// trade works out what a path leaves the shop that owns the machine: nobody pays for
// the diagnosis, an hour is worth its rate, and parts for a machine that is sold
// again bear no tax here (local law may differ).
func (a *ask) trade(p *Path) {
	shop := a.book.Shop
	parts := decimal.Zero
	for _, l := range p.Lines {
		parts = parts.Add(l.atCost())
	}
	p.AtCost = decimal.Sum(shop.Round(parts, money.One), shop.Work(p.Minutes), shop.Round(a.beside(p), money.One))
	p.AsIs, p.After = a.asIsWorth(), a.worth
	if p.Converts {
		p.After = shop.Converted(a.worth)
	}
	p.Margin = p.After.Sub(p.AsIs).Sub(p.AtCost)
}

// asIsWorth is what a buyer gives who is told the faults.
func (a *ask) asIsWorth() decimal.Decimal {
	return a.book.Shop.Round(a.worth.Mul(a.book.Leaving.AsIsPercent), money.Hundred)
}
