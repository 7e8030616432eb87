package repair

import (
	"fmt"
	"time"
	"unicode/utf8"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// The bounds of what a price says. Beyond them a slip is far likelier.
const (
	mostStock    = 100_000
	mostLeadDays = 730
	longestWords = 200
	firstYear    = 2000
	lastYear     = 2099
)

// day is how dates are written: ISO 8601.
const day = "2006-01-02"

// Read is the price that the row means. What is wrong with it is reported to r.
func (row Row) Read(r *money.Reader) Price {
	return Price{
		Part: row.Part.Text, Grade: Grade(r.OneOf(row.Grade, "original", "aftermarket", "bin")), Each: r.Amount(row.Price),
		Supplier: short(r, row.Supplier), Number: short(r, row.Number),
		Stock: r.Count(row.Stock, mostStock), LeadDays: r.Count(row.LeadDays, mostLeadDays), Returnable: row.Returnable.Value,
		Freight: r.Amount(row.Freight), Disposal: r.Amount(row.Disposal), Core: r.Amount(row.Core),
		Date: date(r, row.Date), ReplacedBy: row.replacedBy(r), Set: short(r, row.Set),
		Note: short(r, row.Note), Place: row.Place,
	}
}

// replacedBy needs a number that is replaced.
func (row Row) replacedBy(r *money.Reader) string {
	if row.ReplacedBy.Given() && !row.Number.Given() {
		r.Report(CodeReplaced, row.ReplacedBy.Place, fmt.Sprintf("%s replaces a line that has no number", row.ReplacedBy.Text),
			`write the number that is replaced at "number"`)
	}
	return short(r, row.ReplacedBy)
}

// short reads words that stand in a column.
func short(r *money.Reader, w shape.Word) string {
	if n := utf8.RuneCountInString(w.Text); n > longestWords {
		r.Report(CodeLong, w.Place, fmt.Sprintf("%d characters are too many here", n), fmt.Sprintf("write at most %d", longestWords))
	}
	return w.Text
}

// date reads a day.
func date(r *money.Reader, w shape.Word) string {
	if !w.Given() {
		return ""
	}
	at, err := time.Parse(day, w.Text)
	if err != nil || at.Year() < firstYear || at.Year() > lastYear {
		r.Report(CodeDate, w.Place, fmt.Sprintf("%q is not a day of this century", w.Text), "write year-month-day, such as 2026-03-31 (ISO 8601)")
	}
	return w.Text
}

// Key is what tells a price from all others. A note does that only for a line
// without a number.
type Key struct {
	Part     string
	Grade    Grade
	Supplier string
	Number   string
	Note     string
}

// Key is what tells this price from all others.
func (p Price) Key() Key {
	k := Key{Part: p.Part, Grade: p.Grade, Supplier: p.Supplier, Number: p.Number}
	if k.Number == "" {
		k.Note = p.Note
	}
	return k
}

// Twice reports the lines that no one could tell from an earlier one.
func Twice(prices []Price) source.Issues {
	var is source.Issues
	first := make(map[Key]source.Place, len(prices))
	for _, p := range prices {
		had, twice := first[p.Key()]
		if !twice || p.Part == "" {
			first[p.Key()] = p.Place
			continue
		}
		is = append(is, source.Issue{
			Code: CodeTwice, Place: p.Place,
			Message: fmt.Sprintf("%s in grade %s has a price on line %d already", p.Part, p.Grade, had.Line),
			Hint:    "keep one of them, or give each seller's line its supplier, a number or a note of its own",
		})
	}
	return is
}
