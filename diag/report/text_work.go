package report

import (
	"fmt"
	"strings"
)

func (p *page) work(d Document) {
	if len(d.Offers) > 0 {
		p.head("What can be done")
	}
	for _, o := range d.Offers {
		text := join(o.Title, ": ", o.Total)
		if o.Minutes > 0 {
			text += ", " + minutes(o.Minutes)
		}
		if o.Days > 0 {
			text += fmt.Sprintf(", parts in %d days", o.Days)
		}
		p.line("- ", text)
		for _, n := range o.Notes {
			p.line("    ", n)
		}
	}
	for i, w := range d.paths() {
		p.head(pathHead(i < len(d.Earlier), w))
		for _, r := range w.Repairs {
			p.repair(r)
		}
		for _, g := range w.Grades {
			p.line("    part:  ", g)
		}
		p.line("    quote: ", quoteWords(w))
	}
	p.list("Done to test it", d.Worked)
	for _, s := range ledger(d) {
		p.section(s)
	}
	p.line("", d.MoneyNote)
}

// pathHead is the head of a path: the one chosen, or one carried out before it.
func pathHead(earlier bool, w Work) string {
	if earlier {
		return "Path before: " + w.Path
	}
	return "Path chosen: " + w.Path
}

func (p *page) repair(r RepairLine) {
	mark := markOpen + " "
	if r.Done {
		mark = markDone + " "
	}
	p.line(mark, r.Title)
	for _, l := range repairNotes(r) {
		p.line("    "+l.Name+strings.Repeat(" ", max(1, 7-len(l.Name))), l.Figure)
	}
	for _, l := range r.Lines {
		p.line("    "+markDone+" ", l)
	}
}

// repairNotes are what comes off and what goes on, each list on its line.
func repairNotes(r RepairLine) []row {
	var out []row
	add := func(name string, list []string) {
		if len(list) > 0 {
			out = append(out, row{Name: name, Figure: strings.Join(list, "; ")})
		}
	}
	add("off:", r.Off)
	add("kept:", r.Kept)
	add("scrap:", r.Scrap)
	add("new:", r.New)
	add("again:", r.Again)
	return out
}

func quoteWords(w Work) string {
	q := w.Quote
	if q.Currency == "" || q.Total == "" {
		return ""
	}
	text := "parts " + q.Parts + ", labour " + q.Labour
	if q.Other != "" {
		text += ", other " + q.Other
	}
	text = fmt.Sprintf("%s, tax %s, total %s %s (%s)", text, q.Tax, q.Total, q.Currency, minutes(q.Minutes))
	if lacks := unpriced([]Work{w}); len(lacks) > 0 {
		text += "; no price on file for " + listedAnd(lacks) + ": the total leaves it out"
	}
	if q.Deposit != "" {
		text += fmt.Sprintf("; deposit %s %s on top, back with the old part", q.Deposit, q.Currency)
	}
	return text
}
