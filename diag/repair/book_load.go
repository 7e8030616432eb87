package repair

import (
	"fmt"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/shop"
	"benchlead/diag/source"
)

// LoadPrices reads a price book and reports every problem in it. With a
// problem there is no book. How the shop charges stands in its settings: the
// caller sets Shop, which charges nothing until then.
func LoadPrices(f source.File) (*PriceBook, source.Issues) {
	top, issues := form.Parse(&f)
	if len(issues) > 0 {
		return nil, issues.Sorted()
	}
	l := &loader{money.Reader{Reader: form.Reader(&f)}}
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
	return &PriceBook{Shop: shop.Plain(), Worth: map[string]decimal.Decimal{}, worthPlaces: map[string]source.Place{}}
}

// loader turns the shape of a book into what it means.
type loader struct{ money.Reader }

func (l *loader) book(s bookShape) *PriceBook {
	book := &PriceBook{Shop: shop.Plain(), Worth: map[string]decimal.Decimal{}, worthPlaces: map[string]source.Place{}}
	for _, p := range s.Prices {
		price := l.price(p)
		l.twice(book, price)
		book.Prices = append(book.Prices, price)
	}
	for _, pair := range s.Worth {
		book.Worth[pair.Key.Text], book.worthPlaces[pair.Key.Text] = l.Amount(pair.Value), pair.Key.Place
	}
	book.Leaving = Leaving{
		AsIsPercent:    l.Percent(s.Leaving.AsIsPercent, 100),
		PartOutPercent: l.Percent(s.Leaving.PartOutPercent, 100),
		PartOutMinutes: l.Count(s.Leaving.PartOutMinutes, 10_000),
	}
	return book
}

func (l *loader) price(s priceShape) Price {
	return Price{
		Part: s.Part.Text, Grade: Grade(l.OneOf(s.Grade, "original", "aftermarket", "bin")), Each: l.Amount(s.Price),
		Stock: l.Count(s.Stock, 100_000), LeadDays: l.Count(s.LeadDays, 730), Returnable: s.Returnable.Value,
		Freight: l.Amount(s.Freight), Disposal: l.Amount(s.Disposal), Core: l.Amount(s.Core),
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
