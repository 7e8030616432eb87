package app

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/pricebook"
	"benchlead/diag/repair"
	"benchlead/diag/source"
)

// mostTold is how many prices of each sort an import shows unless all are asked for.
const mostTold = 15

// tellImport shows what a table does to the book.
func (p *program) tellImport(name string, list pricebook.List, d pricebook.Difference, all bool) {
	p.say("%s: %d prices. New %d, changed %d, as before %d, gone %d.", name, len(list.Prices), len(d.New), len(d.Changed), d.Same, len(d.Gone))
	most := mostTold
	if all {
		most = len(d.Book) + len(d.Gone)
	}
	var changed []string
	for _, c := range d.Changed {
		changed = append(changed, changedLine(c))
	}
	p.tellSome("New", shortLines(d.New), most)
	p.tellSome("Changed", changed, most)
	p.tellSome("Gone", shortLines(d.Gone), most)
	var ignored []string
	for _, c := range list.Ignored {
		ignored = append(ignored, c.Name)
	}
	if len(ignored) > 0 {
		p.say("Columns passed over: %s.", strings.Join(ignored, ", "))
	}
	if list.Undated > 0 {
		p.say("Rows without a date: %d. With --date they are marked once they are old.", list.Undated)
	}
	var missing []string
	for _, i := range repair.Missing(d.Book) {
		missing = append(missing, i.Place.String()+": "+i.Message+".")
	}
	p.tellSome("Replaced by what the book doesn't have; the old number is offered until it does", missing, most)
}

// say prints a line, harmless to print.
func (p *program) say(format string, args ...any) {
	fmt.Fprintln(p.streams.Out, source.CleanLine(fmt.Sprintf(format, args...)))
}

// tellSome prints lines under a title, and counts those that are too many.
func (p *program) tellSome(title string, lines []string, most int) {
	if len(lines) == 0 {
		return
	}
	p.say("%s:", title)
	for _, l := range lines[:min(len(lines), most)] {
		p.say("  %s", l)
	}
	if more := len(lines) - most; more > 0 {
		p.say("  and %d more; --all shows them", more)
	}
}

func shortLines(prices []repair.Price) []string {
	var out []string
	for _, price := range prices {
		out = append(out, named(price)+": "+price.Each.StringFixed(2))
	}
	return out
}

// named is which price it is, in words.
func named(price repair.Price) string {
	text := price.Part + ", " + string(price.Grade)
	if label := price.Label(); label != "" {
		text += ", " + label
	}
	return text
}

// farOff is a change of price, in percent, that is looked at twice: a slip of the
// decimal point is ten times.
var farOff = decimal.NewFromInt(200)

// changedLine is what changed of one price; the price first, with how much in percent.
func changedLine(c pricebook.Change) string {
	var says []string
	for _, f := range c.Fields {
		line := fmt.Sprintf("%s %s -> %s", f.Name, orNone(f.Old), orNone(f.New))
		if percent, known := c.Percent(); known && f.Name == "price" {
			line += fmt.Sprintf(" (%s %%)", signed(percent))
			if percent.GreaterThanOrEqual(farOff) || c.New.Each.Mul(decimal.NewFromInt(3)).LessThanOrEqual(c.Old.Each) {
				line += ", look twice"
			}
		}
		says = append(says, line)
	}
	return named(c.Old) + ": " + strings.Join(says, "; ")
}

func signed(d decimal.Decimal) string {
	if d.IsPositive() {
		return "+" + d.String()
	}
	return d.String()
}

func orNone(text string) string {
	if text == "" {
		return "none"
	}
	return text
}
