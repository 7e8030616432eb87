// Package shop is how a shop charges and works: its settings, read from one file.
package shop

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/money"
)

// Settings are a shop's own figures. Money is in Currency; LabourRate is an hour.
type Settings struct {
	Currency      string
	LabourRate    decimal.Decimal
	MinimumLabour decimal.Decimal
	TaxPercent    decimal.Decimal
	TaxOn         Taxed
	WarnAbove     decimal.Decimal // percent of worth
	RoundTo       decimal.Decimal
	Fee           decimal.Decimal // for the diagnosis
	FeeCredited   bool            // against a repair
	Consumables   decimal.Decimal
}

// Taxed says which lines of a quote are taxed.
type Taxed string

// What is taxed.
const (
	TaxParts Taxed = "parts"
	TaxBoth  Taxed = "both" // everything charged
	TaxNone  Taxed = "none"
)

// Plain are settings that charge nothing, for a shop that gave none: repairs are
// told in minutes and parts.
func Plain() Settings {
	return Settings{Currency: "USD", TaxOn: TaxNone, RoundTo: money.Cent}
}

// Round is numerator/denominator to the shop's smallest step, halves up.
func (s Settings) Round(numerator, denominator decimal.Decimal) decimal.Decimal {
	return money.Round(numerator, denominator, s.RoundTo)
}

// Format writes an amount with the places that the shop rounds to, without the
// currency.
func (s Settings) Format(d decimal.Decimal) string { return money.Format(d, s.RoundTo) }

// Labour is what minutes of work cost, at least the minimum.
func (s Settings) Labour(minutes int) decimal.Decimal {
	cost := s.Round(s.LabourRate.Mul(decimal.NewFromInt(int64(minutes))), money.Sixty)
	if minutes > 0 && cost.LessThan(s.MinimumLabour) {
		return s.Round(s.MinimumLabour, money.One)
	}
	return cost
}

// Tax is the tax on what is charged. What is taxed, and at what rate, is local
// law; the shop's own figures are used as given.
func (s Settings) Tax(parts, labour, other decimal.Decimal) decimal.Decimal {
	base := decimal.Zero
	switch s.TaxOn {
	case TaxParts:
		base = parts
	case TaxBoth:
		base = decimal.Sum(parts, labour, other)
	}
	return s.Round(base.Mul(s.TaxPercent), money.Hundred)
}
