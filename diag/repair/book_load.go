package repair

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

// LoadPrices reads a price book and reports every problem in it. With a
// problem there is no book.
func LoadPrices(f source.File) (*PriceBook, source.Issues) {
	top, issues := form.Parse(&f)
	if len(issues) > 0 {
		return nil, issues.Sorted()
	}
	l := &loader{Reader: form.Reader(&f)}
	var s bookShape
	l.Read(top, &s, "a price book")
	book := l.book(s)
	if len(l.Issues) > 0 {
		return nil, l.Issues.Sorted()
	}
	return book, nil
}

// NoPrices is a book without a price: repairs are told in minutes and parts, and
// not in money.
func NoPrices() *PriceBook {
	return &PriceBook{
		Shop:  Shop{Currency: "USD", TaxOn: TaxNone, RoundTo: decimal.New(1, -2)},
		Worth: map[string]decimal.Decimal{}, worthPlaces: map[string]source.Place{},
	}
}

// loader turns the shape of a book into what it means.
type loader struct{ *shape.Reader }

func (l *loader) book(s bookShape) *PriceBook {
	book := &PriceBook{Shop: l.shop(s.Shop), Worth: map[string]decimal.Decimal{}, worthPlaces: map[string]source.Place{}}
	for _, p := range s.Prices {
		price := l.price(p)
		l.twice(book, price)
		book.Prices = append(book.Prices, price)
	}
	for _, pair := range s.Worth {
		book.Worth[pair.Key.Text], book.worthPlaces[pair.Key.Text] = l.amount(pair.Value), pair.Key.Place
	}
	book.Leaving = Leaving{
		AsIsPercent:    l.percent(s.Leaving.AsIsPercent, 100),
		PartOutPercent: l.percent(s.Leaving.PartOutPercent, 100),
		PartOutMinutes: l.count(s.Leaving.PartOutMinutes, 10_000),
	}
	return book
}

func (l *loader) shop(s shopShape) Shop {
	return Shop{
		Currency: l.currency(s.Currency), LabourRate: l.amount(s.LabourRate), MinimumLabour: l.amount(s.MinimumLabour),
		TaxPercent: l.percent(s.TaxPercent, 100), TaxOn: Taxed(l.oneOf(s.TaxOn, "parts", "both", "none")),
		WarnAbove: l.percent(s.WarnAbove, 1000), RoundTo: l.step(s.RoundTo), Fee: l.amount(s.Fee),
		FeeCredited: s.FeeCredited.Value || !s.FeeCredited.Given, Consumables: l.amount(s.Consumables),
	}
}

func (l *loader) price(s priceShape) Price {
	return Price{
		Part: s.Part.Text, Grade: Grade(l.oneOf(s.Grade, "original", "aftermarket", "bin")), Each: l.amount(s.Price),
		Stock: l.count(s.Stock, 100_000), LeadDays: l.count(s.LeadDays, 730), Returnable: s.Returnable.Value,
		Freight: l.amount(s.Freight), Disposal: l.amount(s.Disposal), Core: l.amount(s.Core),
		Note: s.Note.Text, Place: s.Place,
	}
}

// twice refuses a line that no one could tell from an earlier one.
func (l *loader) twice(book *PriceBook, p Price) {
	for _, had := range book.Prices {
		if p.Part != "" && had.Part == p.Part && had.Grade == p.Grade && had.Note == p.Note {
			l.Report(CodeTwice, p.Place,
				fmt.Sprintf("%s in grade %s has a price on line %d already", p.Part, p.Grade, had.Place.Line),
				"keep one of them, or give each seller's line a note of its own")
			return
		}
	}
}

func (l *loader) oneOf(w shape.Word, words ...string) string {
	if !w.Given() || slices.Contains(words, w.Text) {
		return w.Text
	}
	hint := "write one of: " + strings.Join(words, ", ")
	if near := source.Nearest(w.Text, words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	l.Report(CodeWord, w.Place, fmt.Sprintf("%q is not one of: %s", w.Text, strings.Join(words, ", ")), hint)
	return ""
}

var currencyCode = regexp.MustCompile(`^[A-Z]{3}$`)

func (l *loader) currency(w shape.Word) string {
	if w.Given() && !currencyCode.MatchString(w.Text) {
		l.Report(CodeWord, w.Place, fmt.Sprintf("%q is not a currency code", w.Text), "write three capital letters (ISO 4217), such as USD or EUR")
	}
	return w.Text
}

// amount is zero when nothing is written.
func (l *loader) amount(w shape.Word) decimal.Decimal {
	if !w.Given() {
		return decimal.Zero
	}
	d, err := ParseAmount(w.Text)
	if err != nil {
		l.Report(CodeAmount, w.Place, err.Error(), `amounts look like "84.00"`)
	}
	return d
}

func (l *loader) percent(w shape.Word, limit int64) decimal.Decimal {
	d := l.amount(w)
	if d.GreaterThan(decimal.NewFromInt(limit)) {
		l.Report(CodeAmount, w.Place, fmt.Sprintf("%s percent is more than %d", d, limit), "write 7.5 for seven and a half percent")
	}
	return d
}

func (l *loader) step(w shape.Word) decimal.Decimal {
	if !w.Given() {
		return decimal.New(1, -2)
	}
	before := len(l.Issues)
	d := l.amount(w)
	if len(l.Issues) == before && (!d.IsPositive() || d.GreaterThan(hundred)) {
		l.Report(CodeAmount, w.Place, "amounts can't be rounded to "+d.String(), `write the smallest coin, such as "0.01" or "0.05"`)
	}
	return d
}

func (l *loader) count(w shape.Word, limit int) int {
	if !w.Given() {
		return 0
	}
	v, err := strconv.Atoi(w.Text)
	if err != nil || v < 0 || v > limit {
		l.Report(CodeCount, w.Place, fmt.Sprintf("%q is not a whole number from 0 to %d", w.Text, limit), "write digits such as 4")
	}
	return v
}
