package ui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/pricebook"
	"benchlead/diag/repair"
)

// PriceRow is one price in a list, in words.
type PriceRow struct {
	Part, Grade string
	Title       string // of the part, where the trees have it
	Price       string // with the currency
	Where       string // in stock, or how long it takes
	From        string // who sells it under which number, and what has to be said

	book  *repair.PriceBook
	price repair.Price
}

// FindPrices looks the book up: the first rows, most of them at the most, in which
// every word stands by its beginning, and how many there are. It is quick enough for
// every key.
func (b Bench) FindPrices(words string, most int) (rows []PriceRow, all int) {
	if b.Prices == nil {
		return nil, 0
	}
	found, all := pricebook.Find(b.Prices.Prices, b.partTitle, words, most)
	for _, p := range found {
		row := PriceWords(b.Prices, p)
		row.Title = b.partTitle(p.Part)
		rows = append(rows, row)
	}
	return rows, all
}

func (b Bench) partTitle(id string) string {
	if part := b.Library.Parts[id]; part != nil {
		return part.Title
	}
	return ""
}

// PriceWords is a price in words.
func PriceWords(book *repair.PriceBook, p repair.Price) PriceRow {
	money := func(text string) string { return strings.TrimSpace(text + " " + book.Shop.Currency) }
	r := PriceRow{book: book, price: p, Part: p.Part, Grade: string(p.Grade), Price: money(p.Each.StringFixed(2)), Where: "no lead time", From: p.Label()}
	switch {
	case p.Stock > 0:
		r.Where = fmt.Sprintf("%d in stock", p.Stock)
	case p.LeadDays == 1:
		r.Where = "1 day"
	case p.LeadDays > 0:
		r.Where = fmt.Sprintf("%d days", p.LeadDays)
	}
	if p.ReplacedBy != "" {
		r.From += ", replaced by " + p.ReplacedBy
	}
	if book.Stale(p) {
		r.From += ", old: " + p.Date
	}
	r.From = strings.TrimPrefix(r.From, ", ")
	return r
}

// Full is all that the price says, a line each in two columns; what isn't known is left out.
func (r PriceRow) Full() []string {
	var out []string
	for _, l := range r.Facts() {
		out = append(out, fmt.Sprintf("%-13s %s", l[0], l[1]))
	}
	if old := r.Old(); old != "" {
		out = append(out, old)
	}
	return out
}

// Old says why a price is marked as old; empty for one that isn't.
func (r PriceRow) Old() string {
	if !r.book.Stale(r.price) {
		return ""
	}
	return fmt.Sprintf("older than %d days", r.book.Shop.StaleDays)
}

// Facts are what the price says, each with its name; what isn't known is left out.
func (r PriceRow) Facts() [][2]string {
	p := r.price
	money := func(d decimal.Decimal) string {
		if d.IsZero() {
			return ""
		}
		return strings.TrimSpace(d.StringFixed(2) + " " + r.book.Shop.Currency)
	}
	yes := map[bool]string{true: "yes", false: "no"}
	return slices.DeleteFunc([][2]string{
		{"supplier", p.Supplier},
		{"number", p.Number},
		{"replaced by", p.ReplacedBy},
		{"date", p.Date},
		{"core deposit", money(p.Core)},
		{"freight", money(p.Freight)},
		{"disposal", money(p.Disposal)},
		{"stock", fmt.Sprint(p.Stock)},
		{"lead days", fmt.Sprint(p.LeadDays)},
		{"returnable", yes[p.Returnable]},
		{"set", p.Set},
		{"note", p.Note},
	}, func(l [2]string) bool { return l[1] == "" })
}
