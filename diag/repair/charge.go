package repair

import (
	"slices"

	"github.com/shopspring/decimal"
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
	one := decimal.NewFromInt(1)
	p.Parts, p.Other = shop.round(p.Parts, one), shop.round(p.Other, one)
	p.Labour = shop.labour(p.Minutes)
	p.Tax = shop.tax(p.Parts, p.Labour, p.Other)
	p.Total = decimal.Sum(p.Parts, p.Labour, p.Other, p.Tax)
	if p.Worth.IsPositive() {
		p.Share = p.Total.Mul(hundred).DivRound(p.Worth, 0)
		p.Remains = p.Worth.Sub(p.Total)
	}
}

// labour is what minutes of work cost, at least the minimum.
func (s Shop) labour(minutes int) decimal.Decimal {
	cost := s.round(s.LabourRate.Mul(decimal.NewFromInt(int64(minutes))), sixty)
	if minutes > 0 && cost.LessThan(s.MinimumLabour) {
		return s.round(s.MinimumLabour, decimal.NewFromInt(1))
	}
	return cost
}

func (s Shop) tax(parts, labour, other decimal.Decimal) decimal.Decimal {
	base := decimal.Zero
	switch s.TaxOn {
	case TaxParts:
		base = parts
	case TaxBoth:
		base = decimal.Sum(parts, labour, other)
	}
	return s.round(base.Mul(s.TaxPercent), hundred)
}
