package pricebook

import (
	"fmt"
	"strings"

	"benchlead/diag/repair"
	"benchlead/diag/shape"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// mostIssues is how many mistakes are told of one table.
const mostIssues = 1000

// Options is what is known of a table beside it.
type Options struct {
	Supplier string   // whose list it is; empty: each row says
	Known    []string // suppliers that the book has: their spelling is kept
	Date     string   // of rows that have none, 2006-01-02; empty: not known
	Currency string   // the shop's
	Decimal  Mark
	Library  *tree.Library // whose parts they are
}

// List is a table that was read.
type List struct {
	Prices  []repair.Price // in the order of the rows
	Ignored []Column       // columns that mean nothing here
	Undated int            // rows without a date

	has map[string]bool // the columns that were there
}

// Read reads a table and reports every mistake in it, up to a thousand. With a
// mistake there is no list.
func Read(f *source.File, o Options) (List, source.Issues) {
	t := newTable(f)
	r := &rowReader{table: t, options: o, spelling: map[string]string{}}
	for _, s := range o.Known {
		r.spelling[strings.ToLower(s)] = s
	}
	t.rows(r.take)
	if t.first == 0 {
		return List{}, source.Issues{{
			Code: CodeEmpty, Place: f.At(1, 1, 0), Message: "the table holds nothing",
			Hint: "begin it with a row that names the columns: part, grade, price ...",
		}}
	}
	issues := append(t.Issues, repair.Twice(r.list.Prices)...)
	issues = append(issues, repair.Loops(r.list.Prices)...)
	issues = append(issues, repair.NewBook(r.list.Prices).Check(o.Library)...)
	if issues = issues.Sorted(); len(issues) > 0 {
		return List{}, capped(f, issues)
	}
	return r.list, nil
}

// capped tells the first thousand: a table of another kind has one in every cell.
func capped(f *source.File, issues source.Issues) source.Issues {
	more := len(issues) - mostIssues
	if more <= 0 {
		return issues
	}
	last := issues[mostIssues-1].Place
	return append(issues[:mostIssues:mostIssues], source.Issue{
		Code: CodeMany, Place: f.At(last.Line, last.Column, 0),
		Message: fmt.Sprintf("from here on there are %d more", more), Hint: "mend what is told first",
	})
}

// rowReader makes prices of rows.
type rowReader struct {
	*table
	options  Options
	heading  *heading          // nil before the first row
	spelling map[string]string // of suppliers, by their name in small letters
	list     List
}

func (r *rowReader) take(cells []cell) {
	if r.heading == nil {
		h := r.readHeading(cells)
		r.heading, r.list.Ignored, r.list.has, r.wide = &h, h.ignored, h.has, len(cells)
		return
	}
	if !r.even(cells) {
		return
	}
	var row repair.Row
	for i, c := range cells {
		r.fill(&row, r.heading.names[i], c)
	}
	r.lacking(&row)
	if row.Supplier.Text == "" {
		row.Supplier.Text = r.options.Supplier
	}
	row.Supplier.Text = r.spelled(row.Supplier.Text)
	if row.Date.Text == "" {
		row.Date.Text = r.options.Date
	}
	if row.Date.Text == "" {
		r.list.Undated++
	}
	row.Place = row.Part.Place
	if price := row.Read(&r.Reader); price.Part != "" {
		r.list.Prices = append(r.list.Prices, price)
	}
}

// even reports a row that has fewer values than there are columns, or more, be they
// empty: 12,50 without quotes is two values, and all that follows means another thing.
func (r *rowReader) even(cells []cell) bool {
	want := len(r.heading.names)
	switch {
	case len(cells) < want:
		r.report(CodeRow, cells[len(cells)-1], fmt.Sprintf("the row has %d values for %d columns; it ends here", len(cells), want),
			"write every value, an empty one where nothing is known")
	case len(cells) > want:
		r.report(CodeRow, cells[want], fmt.Sprintf("the row has %d values for %d columns; this is one too many", len(cells), want),
			fmt.Sprintf("put a value that holds %q in quotes", string(r.comma)))
	}
	return len(cells) == want
}

// lacking reports what a price can't be without. A column that is missing was
// reported with the heading.
func (r *rowReader) lacking(row *repair.Row) {
	for name, w := range map[string]shape.Word{"part": row.Part, "grade": row.Grade, "price": row.Price} {
		if r.heading.has[name] && w.Text == "" {
			r.Report(shape.CodeNothing, w.Place, fmt.Sprintf("%q is empty", name), "write a value, or take the row away")
		}
	}
}

// fill puts a cell where its column belongs.
func (r *rowReader) fill(row *repair.Row, name string, c cell) {
	text := strings.TrimSpace(unguarded(source.CleanLine(c.text)))
	w := shape.Word{Text: text, Place: r.place(c)}
	switch name {
	case "part":
		row.Part = w
	case "grade":
		w.Text = strings.ToLower(text)
		row.Grade = w
	case "supplier":
		row.Supplier = r.supplier(c, w)
	case "number":
		row.Number = w
	case "stock":
		row.Stock = w
	case "lead days":
		row.LeadDays = w
	case "returnable":
		row.Returnable = r.yesNo(c, w)
	case "date":
		row.Date = w
	case "replaced by":
		row.ReplacedBy = w
	case "set":
		row.Set = w
	case "note":
		row.Note = w
	case "currency":
		r.currency(c, w)
	case "price", "core deposit", "freight", "disposal":
		r.amount(row, name, c, w)
	}
}

func (r *rowReader) amount(row *repair.Row, name string, c cell, w shape.Word) {
	w.Text = r.number(c, w.Text, r.options.Decimal)
	switch name {
	case "price":
		row.Price = w
	case "core deposit":
		row.Core = w
	case "freight":
		row.Freight = w
	case "disposal":
		row.Disposal = w
	}
}

func (r *rowReader) supplier(c cell, w shape.Word) shape.Word {
	own := r.options.Supplier
	if own != "" && w.Text != "" && !strings.EqualFold(w.Text, own) {
		r.report(CodeSupplier, c, fmt.Sprintf("the list is of %s, and this row of %q", source.CleanLine(own), w.Text), "leave --supplier out, or take the row away")
	}
	return w
}

// spelled is a supplier as the book spells it, or as the table did first.
func (r *rowReader) spelled(name string) string {
	lower := strings.ToLower(name)
	if _, ok := r.spelling[lower]; !ok {
		r.spelling[lower] = name
	}
	return r.spelling[lower]
}

func (r *rowReader) currency(c cell, w shape.Word) {
	if w.Text != "" && r.options.Currency != "" && !strings.EqualFold(w.Text, r.options.Currency) {
		r.report(CodeCurrency, c, fmt.Sprintf("the price is in %s, and the shop's currency is %s", w.Text, r.options.Currency), "convert it first: prices have no currency of their own")
	}
}

func (r *rowReader) yesNo(c cell, w shape.Word) shape.YesNo {
	switch strings.ToLower(w.Text) {
	case "":
		return shape.YesNo{}
	case "yes", "y", "true", "1":
		return shape.YesNo{Value: true, Given: true, Place: w.Place}
	case "no", "n", "false", "0":
		return shape.YesNo{Given: true, Place: w.Place}
	}
	r.report(CodeYesNo, c, fmt.Sprintf("%q is neither yes nor no", w.Text), "write yes or no")
	return shape.YesNo{}
}
