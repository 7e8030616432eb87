package pricebook

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/repair"
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
			row = append(row, guarded(value(p, name)))
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

// runs begin what a spreadsheet takes for a formula (OWASP, "CSV Injection": = + - @,
// tab, carriage return, and the wide forms of the signs), and the apostrophe that
// stands before one here.
const runs = "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20'"

// guarded is a value that no spreadsheet runs: an apostrophe stands before it.
func guarded(text string) string {
	if text != "" && strings.ContainsRune(runs, []rune(text)[0]) {
		return "'" + text
	}
	return text
}

// unguarded takes the apostrophe away again.
func unguarded(text string) string {
	rest, ok := strings.CutPrefix(text, "'")
	if ok && guarded(rest) != rest {
		return rest
	}
	return text
}
