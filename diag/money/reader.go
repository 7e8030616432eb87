package money

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// The codes of what a Reader reports, beside those of package shape.
const (
	CodeAmount source.Code = "bad-amount"
	CodeWord   source.Code = "bad-word"
	CodeCount  source.Code = "bad-count"
)

// Reader reads words of a YAML file as amounts, and reports those that are none
// with their place. A word that is not given is zero.
type Reader struct{ *shape.Reader }

// OneOf reads one of some words.
func (r *Reader) OneOf(w shape.Word, words ...string) string {
	if !w.Given() || slices.Contains(words, w.Text) {
		return w.Text
	}
	hint := "write one of: " + strings.Join(words, ", ")
	if near := source.Nearest(w.Text, words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.Report(CodeWord, w.Place, fmt.Sprintf("%q is not one of: %s", w.Text, strings.Join(words, ", ")), hint)
	return ""
}

var currencyCode = regexp.MustCompile(`^[A-Z]{3}$`)

// Currency reads a currency code of ISO 4217.
func (r *Reader) Currency(w shape.Word) string {
	if w.Given() && !currencyCode.MatchString(w.Text) {
		r.Report(CodeWord, w.Place, fmt.Sprintf("%q is not a currency code", w.Text), "write three capital letters (ISO 4217), such as USD or EUR")
	}
	return w.Text
}

// Amount reads an exact amount of zero or more.
func (r *Reader) Amount(w shape.Word) decimal.Decimal {
	if !w.Given() {
		return decimal.Zero
	}
	d, err := Parse(w.Text)
	if err != nil {
		r.Report(CodeAmount, w.Place, err.Error(), `amounts look like "84.00"`)
	}
	return d
}

// Percent reads a percentage of at most limit.
func (r *Reader) Percent(w shape.Word, limit int64) decimal.Decimal {
	d := r.Amount(w)
	if d.GreaterThan(decimal.NewFromInt(limit)) {
		r.Report(CodeAmount, w.Place, fmt.Sprintf("%s percent is more than %d", d, limit), "write 7.5 for seven and a half percent")
	}
	return d
}

// Step reads the smallest coin; a cent when nothing is written.
func (r *Reader) Step(w shape.Word) decimal.Decimal {
	if !w.Given() {
		return Cent
	}
	before := len(r.Issues)
	d := r.Amount(w)
	if len(r.Issues) == before && (!d.IsPositive() || d.GreaterThan(Hundred)) {
		r.Report(CodeAmount, w.Place, "amounts can't be rounded to "+d.String(), `write the smallest coin, such as "0.01" or "0.05"`)
	}
	return d
}

// Count reads a whole number of at most limit.
func (r *Reader) Count(w shape.Word, limit int) int {
	if !w.Given() {
		return 0
	}
	v, err := strconv.Atoi(w.Text)
	if err != nil || v < 0 || v > limit {
		r.Report(CodeCount, w.Place, fmt.Sprintf("%q is not a whole number from 0 to %d", w.Text, limit), "write digits such as 4")
	}
	return v
}
