package shop

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/money"
)

// Price is what the customer pays for one part of a grade that stands in the price
// book at each: each itself, unless the grade has a markup. Then each is the shop's
// cost, and the price is rounded.
func (s Settings) Price(grade string, each decimal.Decimal) decimal.Decimal {
	markup := s.Grades[grade].Markup
	if markup.IsZero() {
		return each
	}
	return s.Round(each.Mul(money.Hundred.Add(markup)), money.Hundred)
}

// Work is what minutes of work are worth at the labour rate, without the minimum.
func (s Settings) Work(minutes int) decimal.Decimal {
	return s.Round(s.LabourRate.Mul(decimal.NewFromInt(int64(minutes))), money.Sixty)
}

// Converted is what a machine of this worth is worth after a conversion. A shop that
// says nothing of it loses nothing.
func (s Settings) Converted(worth decimal.Decimal) decimal.Decimal {
	if !s.ConversionWorth.IsPositive() {
		return worth
	}
	return s.Round(worth.Mul(s.ConversionWorth), money.Hundred)
}

// usualSeasons is how far is looked ahead where the shop says nothing.
const usualSeasons = 3

// Ahead is how many seasons are looked ahead, at least one.
func (s Settings) Ahead() int {
	if s.Seasons < 1 {
		return usualSeasons
	}
	return s.Seasons
}
