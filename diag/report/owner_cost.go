package report

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/tree"
)

// cost is what it comes to and who approved it.
func cost(d Document) section {
	s := section{Head: "Cost"}
	for _, w := range d.billed() {
		s.Rows = append(s.Rows, bill(w)...)
	}
	if total, currency, ok := totalOf(d); ok && len(d.billed()) > 1 {
		s.Rows = append(s.Rows, row{Name: together(d), Figure: exact(total, currency), Sum: true})
	}
	if lacks := unpriced(d.billed()); len(lacks) > 0 {
		s.Says = append(s.Says, "There was no price for: "+listedAnd(lacks)+". The total and the estimate leave it out; it comes on top.")
	}
	s.Says = append(s.Says, payable(d)...)
	for _, a := range d.Asked {
		s.Says = append(s.Says, answer(a))
		if len(a.Declined) > 0 {
			s.Says = append(s.Says, "Offered and not wanted: "+listedAnd(a.Declined)+".")
		}
	}
	if note, _, _ := strings.Cut(d.MoneyNote, ". "); note != "" && len(s.Rows) > 0 {
		s.Says = append(s.Says, full(note)) // what follows is for whoever runs the program
	}
	return s
}

// together names the sum of all paths.
func together(d Document) string {
	if len(unpriced(d.billed())) > 0 {
		return "All together so far"
	}
	return "All together"
}

// exact writes an amount with all of its places.
func exact(d decimal.Decimal, currency string) string {
	return d.StringFixed(max(0, -d.Exponent())) + " " + currency
}

// billed are the paths whose quote is due: those of which something was done, and
// the one chosen while the job is open. A machine that goes back without a repair
// owes the fee that the quote of that says.
func (d Document) billed() []Work {
	var out []Work
	for _, w := range d.paths() {
		if w.Quote.Total == "" || w.Quote.Currency == "" || w.Path == repair.ChooseAsIs || w.Path == repair.ChoosePartOut {
			continue
		}
		if d.Outcome == "" || w.Path != repair.ChooseRepair || w.done() {
			out = append(out, w)
		}
	}
	return out
}

// done says that a repair of the path is done.
func (w Work) done() bool {
	for _, r := range w.Repairs {
		if r.Done {
			return true
		}
	}
	return false
}

// bill is a quote, line by line.
func bill(w Work) []row {
	q := w.Quote
	var out []row
	for _, l := range w.Parts {
		if l.Each != "" {
			name := fmt.Sprintf("%d x %s (%s)", max(1, l.Qty), tree.InSentence(l.Title), plainGrade(l.Grade))
			out = append(out, row{Name: name, Figure: l.Each + " " + q.Currency + " each"})
		}
	}
	with := func(name, amount string) {
		if amount != "" && strings.Trim(amount, "0.") != "" {
			out = append(out, row{Name: name, Figure: amount + " " + q.Currency})
		}
	}
	with("Parts", q.Parts)
	with("Work, "+minutes(q.Minutes), q.Labour)
	other := "Small material, freight, disposal, fee"
	if w.Path != repair.ChooseRepair {
		other = "Fee for finding out what is wrong"
	}
	with(other, q.Other)
	with("Tax", q.Tax)
	total := "Total"
	if len(w.Unpriced) > 0 {
		total = "Total so far"
	}
	out = append(out, row{Name: total, Figure: q.Total + " " + q.Currency, Sum: true})
	with("Deposit on top, back with the old part", q.Deposit)
	return out
}

// payable says what the figures are: due, or what it would cost.
func payable(d Document) []string {
	switch {
	case d.Outcome == "" && d.Work == nil && len(d.Offers) > 0 && d.Offers[0].Total != "" && len(d.Doubts) == 0:
		return []string{"Nothing is agreed yet. " + phoneNext(d)}
	case d.Outcome == "" && d.Work == nil:
		return []string{"Nothing is agreed yet, and there is no price yet."}
	case d.Outcome == "" && len(d.billed()) > 0 && !d.Work.done():
		return []string{"This is our estimate. The work is not done yet."}
	case job.Outcome(d.Outcome) == job.SoldAsIs:
		return []string{"No repair was made and none is charged."}
	case d.Outcome != "" && d.Outcome != string(job.PartedOut) && len(d.billed()) == 0:
		return []string{notMade(d)}
	}
	return nil
}

// notMade is a job that was closed without its repair.
func notMade(d Document) string {
	text := "No repair was made and none is charged."
	for _, w := range d.paths() {
		settings := map[string]string{}
		for _, set := range w.Shop {
			settings[set.Name] = set.Value
		}
		if all, tax := repair.FeeOwed(settings); all.IsPositive() {
			return text + " The fee for finding out what is wrong is " + strings.TrimSpace(exact(all, w.Quote.Currency)) + withTax(tax) + "."
		}
	}
	return text
}

// withTax says that tax is within an amount, where there is some.
func withTax(tax decimal.Decimal) string {
	if tax.IsPositive() {
		return " with tax"
	}
	return ""
}

// taxWord says that tax is within the total of a job's paths, where any is charged.
func taxWord(d Document) string {
	for _, w := range d.paths() {
		if word := taxedWord(w.Quote.Tax); word != "" {
			return word
		}
	}
	return ""
}

// taxedWord is withTax of an amount as a quote has it.
func taxedWord(tax string) string {
	amount, err := decimal.NewFromString(tax)
	if err != nil {
		return ""
	}
	return withTax(amount)
}

// answer is what the owner said to an estimate.
func answer(a Asked) string {
	text := "Approved"
	if !a.Approved {
		text = "Not approved"
	}
	if a.Approved && a.Ceiling != "" {
		text += " up to " + a.Ceiling
	}
	text = join(text+" by "+a.Who, ", ", a.How) + " on " + plainDay(a.On)
	return text + join(" (the estimate was ", "", a.Total) + ")."
}

// warranted is how long the shop answers for the parts.
func warranted(d Document) section {
	s := section{Head: "Warranty on the parts that were fitted"}
	for _, w := range d.Warranty {
		name := w.Title + " (" + plainGrade(w.Grade) + ")"
		switch w.Days {
		case 0:
			s.Rows = append(s.Rows, row{Name: name, Figure: "none"})
		default:
			s.Rows = append(s.Rows, row{Name: name, Figure: counted(float64(w.Days), "day")})
		}
	}
	if len(s.Rows) > 0 {
		s.Says = []string{"From the day it is handed back. Keep this sheet. Rights that the law gives you stand beside it."}
	}
	return s
}
