package repair

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"benchlead/diag/tree"
)

// widest is how long a line may be that is read out, in characters: with its margin it
// stands on one line of 80. Judgement.
const widest = 70

// phone is two lines to read to the owner: what is wrong; what it costs, and by when.
// A machine of the shop's own has nobody to ring.
func (o Offers) phone() []string {
	if o.Own {
		return nil
	}
	return []string{shorten(o.wrong()), shorten(o.next())}
}

// wrong is what was found, as much of it as can be said on a line.
func (o Offers) wrong() string {
	if len(o.found) == 0 {
		return "We have not found anything wrong so far."
	}
	var titles []string
	for _, f := range o.found {
		titles = append(titles, tree.InSentence(f.Title))
	}
	all := "What is wrong: " + strings.Join(titles, "; ") + "."
	if len(titles) == 1 || utf8.RuneCountInString(all) <= widest {
		return all
	}
	return fmt.Sprintf("%d things are wrong, the first: %s.", len(titles), titles[0])
}

// withTax says that tax is within the total, where there is some.
func (p Path) withTax() string {
	if p.Tax.IsPositive() {
		return " with tax"
	}
	return ""
}

// next is what the first path costs and by when.
func (o Offers) next() string {
	switch {
	case len(o.found) == 0:
		return "We have to measure more before we can name a price."
	case len(o.Paths) == 0:
		return "We have no repair for that. Let us talk about what else to do."
	}
	p := o.Paths[0]
	if !p.Priced() {
		return fmt.Sprintf("It takes about %d minutes of work; we have no price yet.", p.Minutes)
	}
	cost := p.Money(p.Total) + p.withTax() + "; " + p.when() + "."
	if titled := p.converting() + ": " + cost; p.Converts && utf8.RuneCountInString(titled) <= widest {
		return titled
	}
	if p.Converts {
		return "Changed for good: " + cost
	}
	return "The repair: " + cost
}

// converting is the title of the path's conversion.
func (p Path) converting() string {
	for _, r := range p.Repairs {
		if r.Kind == tree.Conversion {
			return r.Title
		}
	}
	return ""
}

// when is by when it can be done.
func (p Path) when() string {
	switch {
	case len(p.Lines) == 0:
		return "no part is needed"
	case p.LeadDays == 0:
		return "we have the parts"
	}
	return "the parts come in " + days(p.LeadDays)
}

// shorten cuts a line at a word.
func shorten(line string) string {
	if utf8.RuneCountInString(line) <= widest {
		return line
	}
	const dots = "..."
	cut := string([]rune(line)[:widest-len(dots)])
	if at := strings.LastIndexByte(cut, ' '); at > widest/2 {
		cut = cut[:at]
	}
	return strings.TrimRight(cut, " ,;:.") + dots
}
