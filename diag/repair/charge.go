package repair

import (
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
)

// charge adds the path up. Each line is rounded once; the total is their sum.
func (a *ask) charge(p *Path, mix []Price) {
	shop := a.book.Shop
	for _, l := range p.Lines {
		p.Parts = p.Parts.Add(l.Sum)
		p.LeadDays = max(p.LeadDays, l.LeadDays)
		price := mix[slices.IndexFunc(mix, func(m Price) bool { return m.Part == l.Part.ID })]
		qty := decimal.NewFromInt(int64(l.Qty))
		p.Other = p.Other.Add(price.Disposal.Mul(qty))
		p.Deposit = p.Deposit.Add(price.Core.Mul(qty))
		if !l.InHand {
			p.Other = p.Other.Add(price.Freight)
		}
	}
	p.Other = p.Other.Add(shop.Consumables)
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
