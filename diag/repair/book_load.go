package repair

import (
	"maps"

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
func NoPrices() *PriceBook { return NewBook(nil) }

// NewBook is a book of prices that were read already.
func NewBook(prices []Price) *PriceBook {
	return &PriceBook{Shop: shop.Plain(), Prices: prices, Worth: map[string]decimal.Decimal{}, worthPlaces: map[string]source.Place{}}
}

// Under is the book as the shop of these settings uses it. What a machine is worth,
// and fetches unrepaired, the book knows better where it says so.
func (b *PriceBook) Under(s shop.Sheet) *PriceBook {
	out := *b
	out.offered = nil // what is said of an old price is the shop's
	out.Shop, out.Worth, out.worthPlaces = s.Settings, maps.Clone(b.Worth), maps.Clone(b.worthPlaces)
	if !b.leaves {
		out.Leaving = s.Leaving
	}
	for _, e := range s.Entries {
		if _, own := b.Worth[e.Key]; e.Section == "worth" && !own {
			out.Worth[e.Key], out.worthPlaces[e.Key] = s.Worth[e.Key], e.Place
		}
	}
	return &out
}

// pricesFrom is among the settings that a quote is frozen with: whose prices it was
// worked out with.
const pricesFrom = "prices from"

// From is the book with whose prices they are, in words, as quotes record it.
func (b *PriceBook) From(whose string) *PriceBook {
	out := *b
	out.from = whose
	return &out
}

// PricesFrom is whose prices a quote was worked out with, by the settings that it was
// frozen with; empty when it does not say.
func PricesFrom(settings map[string]string) string { return settings[pricesFrom] }

// loader turns the shape of a book into what it means.
type loader struct{ money.Reader }

func (l *loader) book(s bookShape) *PriceBook {
	book := NoPrices()
	for _, row := range s.Prices {
		book.Prices = append(book.Prices, row.Read(&l.Reader))
	}
	l.Issues = append(append(l.Issues, Twice(book.Prices)...), Loops(book.Prices)...)
	for _, pair := range s.Worth {
		book.Worth[pair.Key.Text], book.worthPlaces[pair.Key.Text] = l.Amount(pair.Value), pair.Key.Place
	}
	if s.Leaving != nil {
		book.Leaving, book.leaves = s.Leaving.Read(&l.Reader), true
	}
	return book
}
