package report

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/repair"
	"benchlead/diag/tree"
)

// phone is two lines to read to the owner.
func phone(d Document) []string {
	what := "the machine"
	if d.Machine != "" {
		what = d.Machine
	}
	first := fmt.Sprintf("About %s: nothing is shown to be wrong so far%s.", what, untested(d))
	titles, doubted := d.found()
	if said := messageAmiss(d); said != "" {
		first = fmt.Sprintf("About %s: %s", what, said)
	}
	if d.lost {
		first = fmt.Sprintf("About %s: what was found can't be shown any more.", what)
	}
	if len(titles) > 0 {
		first = fmt.Sprintf("About %s: we found: %s.", what, strings.Join(titles, "; "))
	}
	if len(doubted) > 0 && len(titles) == 0 {
		first = fmt.Sprintf("About %s: nothing is certain yet.", what)
	}
	if len(doubted) > 0 {
		first += " We still doubt this and measure again: " + strings.Join(doubted, "; ") + "."
	}
	if len(d.NotToUse) > 0 {
		first = "It must not be used. " + d.NotToUse[0] + " " + first
	}
	return []string{first, phoneNext(d)}
}

// found are the titles of what was found, for a sentence: those that are sure, and
// those in doubt.
func (d Document) found() (sure, doubted []string) {
	for _, f := range d.Findings {
		if f.Doubt != "" {
			doubted = append(doubted, tree.InSentence(f.Title))
			continue
		}
		sure = append(sure, tree.InSentence(f.Title))
	}
	return sure, doubted
}

func phoneNext(d Document) string {
	switch {
	case d.Outcome != "":
		return "It is finished: " + d.Outcome + "." + converted(d)
	case d.Work != nil && d.Work.Path == repair.ChooseRepair && d.Work.Quote.Currency != "":
		return phoneTotal(d)
	case d.Work != nil:
		return "Agreed: " + d.Work.Path + "."
	case len(d.Doubts) == 0 && len(d.Offers) > 0 && d.Offers[0].Total != "":
		return fmt.Sprintf("The cheapest way to repair it comes to %s%s, %s of work. Shall we?%s", d.Offers[0].Total, d.Offers[0].withTax(), minutes(d.Offers[0].Minutes), more(d))
	case len(d.Doubts) == 0 && len(d.Offers) > 0 && d.Offers[0].lacks != "":
		return fmt.Sprintf("It can be repaired in %s of work; we have %s.%s", minutes(d.Offers[0].Minutes), d.Offers[0].lacks, more(d))
	}
	return "We have to measure more before we can name a price."
}

// withTax says that tax is within the total, where there is some.
func (o Offer) withTax() string {
	if o.taxed {
		return " with tax"
	}
	return ""
}

// phoneTotal is the price of the repair; after an earlier path of the job it is the
// price of all together, which is what the owner approves.
func phoneTotal(d Document) string {
	q := d.Work.Quote
	total, currency, ok := totalOf(d)
	if lacks := unpriced(d.paths()); len(lacks) > 0 && ok {
		return fmt.Sprintf("There is no price yet for: %s. Without that it comes to %s%s, %s of work.", listedAnd(lacks), exact(total, currency), taxWord(d), minutes(q.Minutes))
	}
	if len(d.Earlier) == 0 || !ok {
		return fmt.Sprintf("The repair comes to %s %s%s, %s of work.", q.Total, q.Currency, taxedWord(q.Tax), minutes(q.Minutes))
	}
	return fmt.Sprintf("With what was done before it comes to %s%s. Of that, this repair is %s %s, %s of work.",
		exact(total, currency), taxWord(d), q.Total, q.Currency, minutes(q.Minutes))
}

// unpriced are the parts of some paths that their quotes leave out, for a sentence.
func unpriced(works []Work) []string {
	var out []string
	for _, w := range works {
		for _, title := range w.Unpriced {
			if title = tree.InSentence(title); !slices.Contains(out, title) {
				out = append(out, title)
			}
		}
	}
	return out
}

// untested says that not all was looked at; empty when it was.
func untested(d Document) string {
	if open := left(d); open != "" {
		return ", and " + open
	}
	return ""
}

// more says that a price may not be all.
func more(d Document) string {
	if open := left(d); open != "" {
		return " More may come: " + open + "."
	}
	return ""
}

// left is how much is not tested, in words.
func left(d Document) string {
	switch n := len(d.Untested) + len(d.Masked); n {
	case 0:
		return ""
	case 1:
		return "one thing is not tested yet"
	default:
		return fmt.Sprintf("%d things are not tested yet", n)
	}
}

// converted says what was changed for good, which the owner has to know.
func converted(d Document) string {
	if d.Work == nil {
		return ""
	}
	for _, r := range d.Work.Repairs {
		if r.Done && r.Converts {
			return " It is not as it was: " + tree.InSentence(r.Title) + "."
		}
	}
	return ""
}

func minutes(n int) string {
	switch {
	case n == 1:
		return "1 minute"
	case n < 60:
		return fmt.Sprintf("%d minutes", n)
	case n%60 == 0:
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d h %d min", n/60, n%60)
}

// deferrals are what the report does not replace.
func deferrals() []string {
	return []string{
		"The readings tell how the machine was on the bench that day, with the meter named here. They promise nothing for later.",
		"Local codes, the maker's instructions and licensed practice come before anything in this report. Mains wiring, " +
			"transfer equipment and the bonding of a generator are work for a licensed electrician.",
		"A machine with a safety function that failed, was not tested or is bypassed must not be used.",
		"What was not tested may still be wrong.",
	}
}
