package pricebook

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// column is one thing that a table can say of a price.
type column struct {
	name   string
	others []string // names that mean the same
	needed bool
}

// columns are those of a table, in the order in which they are written.
var columns = []column{
	{"part", []string{"part id", "for part"}, true},
	{"grade", []string{"quality"}, true},
	{"supplier", []string{"seller", "vendor", "sold by"}, false},
	{"number", []string{"part number", "part no", "item number", "item no", "article number", "order number"}, false},
	{"price", []string{"unit price", "price each", "each", "net price", "cost"}, true},
	{"core deposit", []string{"core", "core charge", "deposit"}, false},
	{"freight", []string{"shipping", "carriage", "postage"}, false},
	{"disposal", []string{"disposal fee", "recycling fee"}, false},
	{"stock", []string{"in stock", "on hand", "in hand"}, false},
	{"lead days", []string{"lead time", "lead time days", "delivery days", "days"}, false},
	{"returnable", []string{"returns", "can be returned"}, false},
	{"date", []string{"price date", "date of price", "as of", "valid from"}, false},
	{"replaced by", []string{"superseded by", "new number", "successor"}, false},
	{"set", []string{"part of set", "kit"}, false},
	{"note", []string{"notes", "remark", "remarks", "comment"}, false},
	{"currency", nil, false},
}

// plainName is a column's name without what people write it with: capitals, dashes
// and underscores, a full stop or a colon at the end.
func plainName(text string) string {
	text = strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToLower(source.CleanLine(text)))
	return strings.Trim(strings.Join(strings.Fields(text), " "), " .:")
}

// known is the name of the column that a text means; empty when there is none.
func known(text string) string {
	plain := plainName(text)
	for _, c := range columns {
		if c.name == plain || slices.Contains(c.others, plain) {
			return c.name
		}
	}
	return ""
}

// Column is a column of a table that was passed over.
type Column struct {
	Name  string
	Place source.Place
}

// heading says which column of the table is what.
type heading struct {
	names   []string // by column of the table; empty: passed over
	has     map[string]bool
	ignored []Column
}

// readHeading reads the first row, and reports what is missing or there twice.
func (t *table) readHeading(cells []cell) heading {
	h := heading{has: map[string]bool{}}
	first := map[string]cell{}
	for _, c := range cells {
		name := known(c.text)
		switch {
		case name == "" && strings.TrimSpace(c.text) != "":
			h.ignored = append(h.ignored, Column{source.CleanLine(strings.TrimSpace(c.text)), t.place(c)})
		case h.has[name]:
			t.report(CodeColumn, c, fmt.Sprintf("the column %q is there twice; the first is column %d", name, first[name].column), "take one of them away")
		case name != "":
			h.has[name], first[name] = true, c
		}
		h.names = append(h.names, name)
	}
	t.missing(h)
	return h
}

func (t *table) missing(h heading) {
	var lacks []string
	for _, c := range columns {
		if c.needed && !h.has[c.name] {
			lacks = append(lacks, c.name)
		}
	}
	if len(lacks) == 0 {
		return
	}
	hint := "the first row names the columns; they may be: " + strings.Join(names(), ", ")
	for _, c := range h.ignored {
		if near := source.Nearest(plainName(c.Name), names()); near != "" && slices.Contains(lacks, near) {
			hint = fmt.Sprintf("did you mean %q where %q stands?", near, c.Name)
		}
	}
	t.Report(CodeColumn, t.file.At(t.first, 1, 0), "there is no column for "+shape.Quoted(lacks), hint)
}

func names() []string {
	var out []string
	for _, c := range columns {
		out = append(out, c.name)
	}
	return out
}
