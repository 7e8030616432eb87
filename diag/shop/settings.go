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
	WarnAbove     decimal.Decimal // percent of worth
	RoundTo       decimal.Decimal
	Fee           decimal.Decimal // for the diagnosis
	FeeCredited   bool            // against a repair
	Consumables   decimal.Decimal

	// One rate on some lines, or a rate for each sort of line; the other way is
	// zero.
	TaxPercent       decimal.Decimal
	TaxOn            Taxed
	TaxPartsPercent  decimal.Decimal
	TaxLabourPercent decimal.Decimal
	TaxOtherPercent  decimal.Decimal // consumables, freight, disposal, a fee not credited

	// Grades are the terms of each grade of part: original, aftermarket, bin. One
	// that is missing has none.
	Grades          map[string]GradeTerms
	Seasons         int             // looked ahead when paths are compared
	ConversionWorth decimal.Decimal // worth after a conversion, in percent of worth before
	StaleDays       int             // prices older than this are flagged; 0: none is
	ComebackDays    int             // the same machine again within this is a comeback
	Meters          []string        // ids of the trees' meters; the first is the usual one
	Tools           []string        // owned, in words; empty: not said

	Worth   map[string]decimal.Decimal // of a sound machine, by system or kind
	Leaving Leaving
}

// GradeTerms is how a shop sells one grade of part.
type GradeTerms struct {
	Markup       decimal.Decimal // percent, on the price in the book
	WarrantyDays int             // 0: none
	// FailPercent is how many of a hundred come back failed within ComebackDays.
	// It is judgement.
	FailPercent decimal.Decimal
}

// Leaving is what a machine fetches that isn't repaired.
type Leaving struct {
	AsIsPercent    decimal.Decimal // of worth
	PartOutPercent decimal.Decimal // of worth
	PartOutMinutes int
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
func Plain() Settings { return Standard().Settings }

// Round is numerator/denominator to the shop's smallest step, halves up.
func (s Settings) Round(numerator, denominator decimal.Decimal) decimal.Decimal {
	return money.Round(numerator, denominator, s.RoundTo)
}

// Format writes an amount with the places that the shop rounds to, without the
// currency.
func (s Settings) Format(d decimal.Decimal) string { return money.Format(d, s.RoundTo) }

// Labour is what minutes of work cost, at least the minimum.
func (s Settings) Labour(minutes int) decimal.Decimal {
	cost := s.Work(minutes)
	if minutes > 0 && cost.LessThan(s.MinimumLabour) {
		return s.Round(s.MinimumLabour, money.One)
	}
	return cost
}

// Tax is the tax on what is charged. What is taxed, and at what rate, is local
// law; the shop's own figures are used as given.
func (s Settings) Tax(parts, labour, other decimal.Decimal) decimal.Decimal {
	tax := decimal.Sum(parts.Mul(s.TaxPartsPercent), labour.Mul(s.TaxLabourPercent), other.Mul(s.TaxOtherPercent))
	switch s.TaxOn {
	case TaxParts:
		tax = tax.Add(parts.Mul(s.TaxPercent))
	case TaxBoth:
		tax = tax.Add(decimal.Sum(parts, labour, other).Mul(s.TaxPercent))
	}
	return s.Round(tax, money.Hundred)
}
