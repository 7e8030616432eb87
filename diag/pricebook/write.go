package pricebook

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/repair"
	"benchlead/diag/source"
)

// Write writes prices as a table that Read reads back as they are. A value that a
// spreadsheet would run as a formula is written so that it doesn't.
func Write(w io.Writer, prices []repair.Price) error {
	out := csv.NewWriter(w)
	var head []string
	for _, c := range columns {
		if c.name != "currency" {
			head = append(head, c.name)
		}
	}
	if err := out.Write(head); err != nil {
		return err
	}
	for _, p := range prices {
		row := make([]string, 0, len(head))
		for _, name := range head {
			row = append(row, source.Cell(value(p, name)))
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// value is what a price says in a column.
func value(p repair.Price, name string) string {
	switch name {
	case "part":
		return p.Part
	case "grade":
		return string(p.Grade)
	case "supplier":
		return p.Supplier
	case "number":
		return p.Number
	case "price":
		return amount(p.Each)
	case "core deposit":
		return unlessZero(p.Core)
	case "freight":
		return unlessZero(p.Freight)
	case "disposal":
		return unlessZero(p.Disposal)
	case "stock":
		return strconv.Itoa(p.Stock)
	case "lead days":
		return strconv.Itoa(p.LeadDays)
	case "returnable":
		return map[bool]string{true: "yes", false: "no"}[p.Returnable]
	case "date":
		return p.Date
	case "replaced by":
		return p.ReplacedBy
	case "set":
		return p.Set
	case "note":
		return p.Note
	}
	return ""
}

// amount writes two places, or four: three would look like thousands.
func amount(d decimal.Decimal) string {
	if d.Equal(d.Truncate(2)) {
		return d.StringFixed(2)
	}
	return d.StringFixed(4)
}

func unlessZero(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return amount(d)
}

// unguarded takes away the apostrophe that source.Cell put before a value.
func unguarded(text string) string {
	if rest, ok := strings.CutPrefix(text, "'"); ok && source.Cell(rest) == text {
		return rest
	}
	return text
}
