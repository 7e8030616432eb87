package repair

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/shop"
)

// owed is the fee for the diagnosis of a machine that goes back unrepaired, and the
// tax on it: that of what is charged beside parts and work, as in a repair.
func owed(s shop.Settings) (fee, tax decimal.Decimal) {
	fee = s.Round(s.Fee, money.One)
	return fee, s.Tax(decimal.Zero, decimal.Zero, fee)
}

// FeeOwed is what a machine that goes back unrepaired owes by the settings that a
// quote was frozen with, and the tax within it. Both are zero where there is no fee.
func FeeOwed(settings map[string]string) (all, tax decimal.Decimal) {
	number := func(name string) decimal.Decimal {
		d, err := decimal.NewFromString(settings[name])
		if err != nil || !d.IsPositive() {
			return decimal.Zero
		}
		return d
	}
	fee, tax := owed(shop.Settings{
		Fee: number("diagnostic fee"), RoundTo: number("round to"), TaxOn: shop.Taxed(settings["tax on"]),
		TaxPercent: number("tax percent"), TaxOtherPercent: number("tax other percent"),
	})
	return fee.Add(tax), tax
}
