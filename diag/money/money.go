// Package money is exact decimal amounts as a shop writes them: read, rounded to
// the smallest coin, and shown. What currency they are in is the caller's.
package money

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/source"
)

// dearest bounds every amount: a slip of the decimal point in a price book is
// far likelier than a part for a million.
const dearest = 1_000_000

var (
	// Hundred is the denominator of percents, Sixty that of minutes in an hour.
	Hundred = decimal.NewFromInt(100)
	Sixty   = decimal.NewFromInt(60)
	One     = decimal.NewFromInt(1)
	// Cent is the smallest step of most currencies.
	Cent = decimal.New(1, -2)

	most   = decimal.NewFromInt(dearest)
	amount = regexp.MustCompile(`^[0-9]{1,10}(\.[0-9]{1,4})?$`)
)

// Parse reads an exact, non-negative amount: digits with at most four
// places after a point. The error says what to write.
func Parse(text string) (decimal.Decimal, error) {
	text = strings.TrimSpace(text)
	shown := source.CleanLine(text)
	switch {
	case strings.HasPrefix(text, "-"):
		return decimal.Zero, fmt.Errorf("%q is negative; amounts are zero or more", shown)
	case strings.Contains(text, ","):
		return decimal.Zero, fmt.Errorf("%q has a comma; write a point and no thousands separator, such as 1234.50", shown)
	case !amount.MatchString(text):
		return decimal.Zero, fmt.Errorf("%q is not an amount; write digits such as 84.00, without a currency sign", shown)
	}
	d, err := decimal.NewFromString(text)
	if err != nil {
		return decimal.Zero, fmt.Errorf("%q is not an amount; write digits such as 84.00", shown)
	}
	if d.GreaterThan(most) {
		return decimal.Zero, fmt.Errorf("%q is more than %d; look at the decimal point", shown, dearest)
	}
	return d, nil
}

// Round is numerator/denominator to the smallest step, halves up: away from zero
// for amounts below it. The division and the rounding are one operation, so that
// nothing is rounded twice. A step that is not positive counts as a cent.
func Round(numerator, denominator, step decimal.Decimal) decimal.Decimal {
	step = orCent(step)
	return numerator.DivRound(denominator.Mul(step), 0).Mul(step)
}

// Format writes an amount with the places that it is rounded to, at least two
// unless the step is whole.
func Format(d, step decimal.Decimal) string {
	step = orCent(step)
	if step.IsInteger() {
		return d.StringFixed(0)
	}
	return d.StringFixed(max(2, -step.Exponent()))
}

func orCent(step decimal.Decimal) decimal.Decimal {
	if step.IsPositive() {
		return step
	}
	return Cent
}
