package repair

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"
)

// first says in a sentence why the first of the ranked ways is the first.
func first(ranked []Way, aim Aim) string {
	if len(ranked) == 0 {
		return ""
	}
	if ranked[0].last() > 0 {
		return "no path has all its prices: the least work comes first"
	}
	head := string(aim)
	if p := ranked[0].Path; p != nil && aim == CheapestOver {
		head = fmt.Sprintf("cheapest over %d seasons", p.Seasons)
	}
	return head + ": " + ahead(ranked, aim)
}

// ahead is what puts the first way before the next: the next that isn't only another
// grade of part for the same repairs, where there is one.
func ahead(ranked []Way, aim Aim) string {
	if len(ranked) == 1 {
		return "there is no other way on file"
	}
	w, next, than := ranked[0], ranked[1], "the next"
	if i := slices.IndexFunc(ranked[1:], w.other); i >= 0 {
		next, than = ranked[1+i], fmt.Sprintf("%q", ranked[1+i].repairs())
	}
	if than == "the next" {
		next = differing(ranked, aim)
	}
	switch {
	case next.last() > 0:
		return "the next has not all its prices"
	case aim == BestMargin:
		return moreMargin(w, next, than)
	}
	p, q := *w.Path, *next.Path
	switch aim {
	case Quickest:
		return quicker(p, q, than)
	case CheapestOver:
		return lead(p, q.OverSeasons.Sub(p.OverSeasons), than, cheaperOver(p, q))
	}
	return lead(p, q.Total.Sub(p.Total), than, cheaper(p, q))
}

// differing is the next that costs something else; where all cost the same, the next.
func differing(ranked []Way, aim Aim) Way {
	first := ranked[0]
	for _, w := range ranked[1:] {
		switch {
		case aim != CheapestNow && aim != CheapestOver || first.Path == nil || w.Path == nil:
			return ranked[1]
		case aim == CheapestNow && !w.Path.Total.Equal(first.Path.Total), aim == CheapestOver && !w.Path.OverSeasons.Equal(first.Path.OverSeasons):
			return w
		}
	}
	return ranked[1]
}

// other says whether another way does other work.
func (w Way) other(o Way) bool {
	return w.Path == nil || o.Path == nil || !w.Path.sameRepairs(*o.Path)
}

// repairs is what is done, without the grades of the parts.
func (w Way) repairs() string {
	if w.Path != nil {
		return titles(w.Path.Repairs)
	}
	return w.Leave.Title
}

// lead is by how much a path is ahead of the next, and why.
func lead(p Path, by decimal.Decimal, than, why string) string {
	if by.IsZero() {
		return fmt.Sprintf("level with %s; %s", than, why)
	}
	return fmt.Sprintf("%s less than %s, because %s", p.Money(by), than, why)
}

// cheaper is what most of the difference in the bill comes from; where there is none,
// what else speaks for p.
func cheaper(p, next Path) string {
	parts, labour, other, tax := next.Parts.Sub(p.Parts), next.Labour.Sub(p.Labour), next.Other.Sub(p.Other), next.Tax.Sub(p.Tax)
	most := decimal.Max(parts, labour, other, tax)
	switch {
	case p.Total.Equal(next.Total):
		return tie(p, next)
	case most.Equal(parts) && len(p.Lines) == 0:
		return "no part has to be bought"
	case most.Equal(parts):
		return fmt.Sprintf("its parts cost %s less", p.Money(parts))
	case most.Equal(labour) && p.Minutes < next.Minutes:
		return fmt.Sprintf("it takes %d minutes less work", next.Minutes-p.Minutes)
	case most.Equal(labour):
		return fmt.Sprintf("its work costs %s less", p.Money(labour))
	case most.Equal(other):
		return fmt.Sprintf("freight and disposal cost %s less", p.Money(other))
	}
	return fmt.Sprintf("its tax is %s less", p.Money(tax))
}

// tie is what puts a path before another that costs the same.
func tie(p, next Path) string {
	switch {
	case p.Minutes < next.Minutes:
		return fmt.Sprintf("it takes %d minutes less work", next.Minutes-p.Minutes)
	case p.LeadDays < next.LeadDays:
		return fmt.Sprintf("its parts are there %s sooner", days(next.LeadDays-p.LeadDays))
	case p.ranks() < next.ranks():
		return "its parts are of the better grade"
	}
	return "nothing else tells them apart"
}

// cheaperOver is what most of the difference over the seasons comes from.
func cheaperOver(p, next Path) string {
	now := next.Total.Sub(p.Total)
	later := next.OverSeasons.Sub(p.OverSeasons).Sub(now)
	switch {
	case later.LessThan(now):
		return cheaper(p, next)
	case now.IsZero() && later.IsZero():
		return tie(p, next)
	case len(p.Wears) == 0:
		return "nothing of it wears out within them"
	}
	return fmt.Sprintf("what wears out costs %s less", p.Money(later))
}

// quicker is what makes a path quicker than the next.
func quicker(p, next Path, than string) string {
	switch {
	case p.LeadDays == 0 && next.LeadDays > 0 && len(p.Lines) == 0:
		return fmt.Sprintf("it needs no part; %s waits %s", than, days(next.LeadDays))
	case p.LeadDays == 0 && next.LeadDays > 0:
		return fmt.Sprintf("its parts are in hand; %s waits %s", than, days(next.LeadDays))
	case p.LeadDays < next.LeadDays:
		return fmt.Sprintf("its parts come in %s, %s before those of %s", days(p.LeadDays), days(next.LeadDays-p.LeadDays), than)
	case p.Minutes < next.Minutes:
		return fmt.Sprintf("%d minutes less work than %s, and parts as soon", next.Minutes-p.Minutes, than)
	case p.Total.LessThan(next.Total):
		return fmt.Sprintf("level with %s, and %s less", than, p.Money(next.Total.Sub(p.Total)))
	}
	return fmt.Sprintf("level with %s; %s", than, tie(p, next))
}

// moreMargin is by how much a way leaves more than the next, and why.
func moreMargin(w, next Way, than string) string {
	by := w.Margin().Sub(next.Margin())
	if p := w.Path; p != nil && !p.Worth.IsPositive() {
		return "what the machine is worth is not known; it costs the shop least"
	}
	if by.IsZero() {
		return "level with " + than
	}
	brings, costs := w.trade()
	nextBrings, nextCosts := next.trade()
	why := fmt.Sprintf("it costs the shop %s less", w.money(nextCosts.Sub(costs)))
	if more := brings.Sub(nextBrings); more.GreaterThan(nextCosts.Sub(costs)) {
		why = fmt.Sprintf("the machine brings %s more", w.money(more))
	}
	return fmt.Sprintf("%s more than %s, because %s", w.money(by), than, why)
}

// trade is what the way brings, and what it costs the shop.
func (w Way) trade() (brings, costs decimal.Decimal) {
	if w.Path != nil {
		return w.Path.After, w.Path.AtCost
	}
	return w.Leave.Fetches, w.Leave.Costs
}

func (w Way) money(d decimal.Decimal) string {
	if w.Path != nil {
		return w.Path.Money(d)
	}
	return w.Leave.Money(d)
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
