package repair

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
	hundred = decimal.NewFromInt(100)
	sixty   = decimal.NewFromInt(60) // minutes in an hour
	most    = decimal.NewFromInt(dearest)
	amount  = regexp.MustCompile(`^[0-9]{1,10}(\.[0-9]{1,4})?$`)
)

// ParseAmount reads an exact, non-negative amount: digits with at most four
// places after a point. The error says what to write.
func ParseAmount(text string) (decimal.Decimal, error) {
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

// round is numerator/denominator to the shop's smallest step, halves up. The
// division and the rounding are one operation, so that nothing is rounded
// twice.
func (s Shop) round(numerator, denominator decimal.Decimal) decimal.Decimal {
	step := s.step()
	return numerator.DivRound(denominator.Mul(step), 0).Mul(step)
}

func (s Shop) step() decimal.Decimal {
	if s.RoundTo.IsPositive() {
		return s.RoundTo
	}
	return decimal.New(1, -2)
}

// Format writes an amount with the places that the shop's currency is rounded
// to, without the currency.
func (s Shop) Format(d decimal.Decimal) string {
	step := s.step()
	if step.IsInteger() {
		return d.StringFixed(0)
	}
	return d.StringFixed(max(2, -step.Exponent()))
}
