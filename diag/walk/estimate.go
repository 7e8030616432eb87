package walk

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/job"
)

// Estimate is what the owner is asked before a repair is begun. Amounts are in
// Currency, with tax, as the quote has them.
type Estimate struct {
	Quote    job.Quote
	Currency string
	Before   decimal.Decimal // paths of this job that are done already
	Total    decimal.Decimal // those, and the one that is chosen
	Ceiling  decimal.Decimal // approved so far; zero when nothing is
	Known    bool            // the amounts of the record are numbers
}

// Short is by how much the ceiling falls short of the total; zero or less when it
// does not.
func (e Estimate) Short() decimal.Decimal { return e.Total.Sub(e.Ceiling) }

// EstimateOf adds up what the owner is asked; nil when no repair is chosen, or it
// was chosen without a quote.
func EstimateOf(facts job.Facts) *Estimate {
	c := facts.Chosen
	if c == nil || len(c.Repairs) == 0 || c.Quote.Total == "" {
		return nil
	}
	e := &Estimate{Quote: c.Quote, Currency: c.Quote.Currency, Known: true}
	for _, before := range facts.Earlier {
		if before.Quote.Total != "" && before.Quote.Currency == e.Currency {
			e.Before = e.Before.Add(e.amount(before.Quote.Total))
		}
	}
	e.Total = e.Before.Add(e.amount(c.Quote.Total))
	if last := LastAsked(facts); last != nil && last.Approved && last.Currency == e.Currency {
		e.Ceiling = e.amount(last.Ceiling)
	}
	return e
}

func (e *Estimate) amount(text string) decimal.Decimal {
	d, err := decimal.NewFromString(text)
	e.Known = e.Known && err == nil
	return d
}

// LastAsked is the owner's latest answer; nil before there is one.
func LastAsked(facts job.Facts) *job.Answered {
	if len(facts.Asked) == 0 {
		return nil
	}
	return &facts.Asked[len(facts.Asked)-1]
}

// Declined is the owner's no to the path that is chosen; nil when there is none.
func Declined(facts job.Facts) *job.Answered {
	last := LastAsked(facts)
	if last == nil || last.Approved || facts.Chosen == nil || last.Seq < facts.ChosenAt || Begun(facts) {
		return nil
	}
	return last
}

// Begun says whether some of the work of the chosen path is done.
func Begun(facts job.Facts) bool { return len(facts.Ticked) > 0 || len(facts.Lined) > 0 }

// unapproved is the estimate that the owner has yet to approve. What is approved
// is a ceiling for the whole job: a later path below it is not asked about.
func (w *where) unapproved() *Estimate {
	e := EstimateOf(w.facts)
	if e == nil || Begun(w.facts) {
		return nil
	}
	last := LastAsked(w.facts)
	switch {
	case last == nil || !last.Approved:
		return e
	case !e.Known || last.Currency != e.Currency:
		// Amounts that can't be compared: an answer to this very path will do.
		if last.Seq > w.facts.ChosenAt {
			return nil
		}
		return e
	case e.Short().IsPositive():
		return e
	}
	return nil
}

// asking waits for the owner's answer to the estimate.
func (w *where) asking(p *Position) bool {
	if p.Estimate = w.unapproved(); p.Estimate == nil {
		return false
	}
	p.Stage = AtEstimate
	return true
}
