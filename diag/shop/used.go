package shop

import (
	"strconv"

	"github.com/shopspring/decimal"
)

// Used is what a quote is worked out with: the settings about money, by name, as
// their file writes them. What a shop left out is left out.
func (s Settings) Used() map[string]string {
	out := map[string]string{
		"currency": s.Currency, "labour rate": s.LabourRate.String(), "fee credited": "no",
		"round to": s.RoundTo.String(), "seasons": strconv.Itoa(s.Ahead()),
	}
	if s.FeeCredited {
		out["fee credited"] = "yes"
	}
	if s.TaxOn != "" {
		out["tax on"] = string(s.TaxOn)
	}
	for name, d := range map[string]decimal.Decimal{
		"minimum labour": s.MinimumLabour, "warn above percent": s.WarnAbove, "diagnostic fee": s.Fee, "consumables": s.Consumables,
		"tax percent": s.TaxPercent, "tax parts percent": s.TaxPartsPercent, "tax labour percent": s.TaxLabourPercent,
		"tax other percent": s.TaxOtherPercent, "conversion worth percent": s.ConversionWorth,
	} {
		put(out, name, d)
	}
	for grade, terms := range s.Grades {
		put(out, grade+" markup percent", terms.Markup)
		put(out, grade+" fail percent", terms.FailPercent)
		put(out, grade+" warranty days", decimal.NewFromInt(int64(terms.WarrantyDays)))
	}
	return out
}

func put(out map[string]string, name string, d decimal.Decimal) {
	if !d.IsZero() {
		out[name] = d.String()
	}
}
