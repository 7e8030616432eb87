package pricebook

import (
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/repair"
)

// Difference is what a list would do to a book.
type Difference struct {
	New     []repair.Price
	Changed []Change
	Same    int
	Gone    []repair.Price // only when the list takes the place of what was there
	Book    []repair.Price // the book afterwards: what it had in its order, then what is new
}

// Change is a price that says something else than before.
type Change struct {
	Old, New repair.Price
	Fields   []Field
}

// Field is one thing that changed.
type Field struct{ Name, Old, New string }

// Percent is how much dearer the part became, below zero when cheaper, to a tenth;
// false when that can't be said.
func (c Change) Percent() (decimal.Decimal, bool) {
	if c.Old.Each.IsZero() || c.Old.Each.Equal(c.New.Each) {
		return decimal.Zero, false
	}
	return c.New.Each.Sub(c.Old.Each).Mul(money.Hundred).DivRound(c.Old.Each, 1), true
}

// Compare works out what a list does to a book. replace: what the list doesn't name
// goes away, of this supplier alone unless it is empty.
func Compare(book []repair.Price, list List, replace bool, supplier string) Difference {
	var d Difference
	next := map[repair.Key]repair.Price{}
	for _, p := range list.Prices {
		next[p.Key()] = p
	}
	old := map[repair.Key]bool{}
	for _, had := range book {
		old[had.Key()] = true
		p, named := next[had.Key()]
		switch {
		case named:
			d.take(had, list.kept(had, p))
		case replace && (supplier == "" || strings.EqualFold(had.Supplier, supplier)):
			d.Gone = append(d.Gone, had)
		default:
			d.Book = append(d.Book, had)
		}
	}
	for _, p := range list.Prices {
		if !old[p.Key()] {
			d.New = append(d.New, p)
			d.Book = append(d.Book, p)
		}
	}
	return d
}

func (d *Difference) take(old, price repair.Price) {
	d.Book = append(d.Book, price)
	if fields := differ(old, price); len(fields) > 0 {
		d.Changed = append(d.Changed, Change{old, price, fields})
		return
	}
	d.Same++
}

// kept is a price with what its table has no column for taken from the book.
func (l List) kept(old, p repair.Price) repair.Price {
	for _, c := range columns {
		if l.has[c.name] {
			continue
		}
		switch c.name {
		case "core deposit":
			p.Core = old.Core
		case "freight":
			p.Freight = old.Freight
		case "disposal":
			p.Disposal = old.Disposal
		case "stock":
			p.Stock = old.Stock
		case "lead days":
			p.LeadDays = old.LeadDays
		case "returnable":
			p.Returnable = old.Returnable
		case "replaced by":
			p.ReplacedBy = old.ReplacedBy
		case "set":
			p.Set = old.Set
		case "note":
			p.Note = old.Note
		}
	}
	if p.Date == "" && !l.has["date"] {
		p.Date = old.Date
	}
	return p
}

// differ lists what two prices say differently.
func differ(old, price repair.Price) []Field {
	var out []Field
	for _, c := range columns {
		if was, is := value(old, c.name), value(price, c.name); was != is {
			out = append(out, Field{c.name, was, is})
		}
	}
	return out
}
