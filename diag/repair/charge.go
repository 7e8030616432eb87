package repair

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/money"
)

// charge adds up what the customer pays. Each sort of line is rounded once; the
// total is their sum.
func (a *ask) charge(p *Path) {
	shop := a.book.Shop
	for _, l := range p.Lines {
		p.Parts = p.Parts.Add(l.Sum)
		p.Deposit = p.Deposit.Add(l.core)
		p.LeadDays = max(p.LeadDays, l.LeadDays)
	}
	p.Other = a.beside(p)
	if !shop.FeeCredited {
		p.Other = p.Other.Add(shop.Fee)
	}
	p.Parts, p.Other = shop.Round(p.Parts, money.One), shop.Round(p.Other, money.One)
	p.Labour = shop.Labour(p.Minutes)
	p.Tax = shop.Tax(p.Parts, p.Labour, p.Other)
	p.Total = decimal.Sum(p.Parts, p.Labour, p.Other, p.Tax)
	if p.Worth.IsPositive() {
		p.Share = p.Total.Mul(money.Hundred).DivRound(p.Worth, 0)
		p.Remains = p.Worth.Sub(p.Total)
	}
}

// beside is what a path costs beside parts and work: freight, disposal, consumables.
func (a *ask) beside(p *Path) decimal.Decimal {
	sum := a.book.Shop.Consumables
	for _, l := range p.Lines {
		sum = decimal.Sum(sum, l.freight, l.disposal)
	}
	return sum
}
