package repair

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/tree"
)

// Path is one way to clear every finding, with what it costs. Money is in
// Currency; Parts, Labour, Other and Tax are each rounded, Total is their sum.
type Path struct {
	ID       string // the same for the same repairs and offers
	Repairs  []*tree.Repair
	Converts bool // one of the repairs changes how the machine starts
	Lines    []Line
	Unpriced []*tree.Part // no price in the book: Total leaves them out
	Minutes  int
	LeadDays int // until the last part is there

	Currency string
	Parts    decimal.Decimal
	Labour   decimal.Decimal
	Other    decimal.Decimal // consumables, freight, disposal, a fee not credited
	Tax      decimal.Decimal
	Total    decimal.Decimal
	Deposit  decimal.Decimal // core deposits, back with the old parts; not in Total

	Worth   decimal.Decimal // of the sound machine; zero: not known
	Share   decimal.Decimal // Total in whole percent of Worth; zero without Worth
	Remains decimal.Decimal // Worth less Total; may be negative
	Warn    []string        // too dear for what it is worth, no refund, no price, must match ...

	// What it costs beyond the bill, and brings a shop that owns the machine. How each
	// is worked out stands with the package.
	Outlay      Outlay
	Risk        Risk
	Comeback    Comeback
	Holds       bool // clears what is wrong whichever likely suspect it is; false while nobody weighed them
	Seasons     int
	OverSeasons decimal.Decimal // Total, and what wears out again within Seasons
	Wears       []Wear
	AtCost      decimal.Decimal // parts at cost, work, and what is beside them; no tax, no fee
	AsIs        decimal.Decimal // what the machine is worth as it is; zero without Worth
	After       decimal.Decimal // what it is worth repaired this way; zero without Worth
	Margin      decimal.Decimal // After less AsIs and AtCost: bought as it is, to be sold
	Saved       []Saved         // good parts that come off for the bin
	Aim         Aim             // what the list was ranked by

	Before   []string    // what must be true before this is chosen
	Law      []tree.Rule // rules it must meet, each with ways of which one must hold
	Cautions []*tree.Caution
	Checks   []string // tests taken again to prove it
	Tools    []string
	// Waits are the faults not judged yet that this path doesn't repair. They
	// could still cost: buy nothing for them yet.
	Waits []*tree.Fault

	price    func(decimal.Decimal) string
	settings map[string]string // as they were used
	told     int               // how much its title tells of its parts, so that it does not read as another's
	apart    int               // how many pairs of parts must match and are not bought as one
}

// Priced says whether every part of the path has a price.
func (p Path) Priced() bool { return len(p.Unpriced) == 0 && p.Currency != "" }

// Lacks says that there is no price, and for which parts; empty when it is priced.
func (p Path) Lacks() string {
	switch {
	case p.Priced():
		return ""
	case p.Currency == "" || len(p.Unpriced) == 0:
		return "no price on file"
	}
	var titles []string
	for _, part := range p.Unpriced {
		titles = append(titles, tree.InSentence(part.Title))
	}
	return "no price on file for " + strings.Join(titles, "; ")
}

// Title is the path in a few words: its repairs, and the grades of the parts; where
// another path on the list would read the same, also who sells them.
func (p Path) Title() string {
	var repairs, grades []string
	for _, r := range p.Repairs {
		repairs = append(repairs, r.Title)
	}
	for _, l := range p.Lines {
		g := string(l.Grade)
		if from := l.from(p.told); from != "" {
			g += " " + from
		}
		if !slices.Contains(grades, g) {
			grades = append(grades, g)
		}
	}
	title := strings.Join(repairs, " + ")
	if len(grades) > 0 {
		title += " (" + strings.Join(grades, ", ") + ")"
	}
	return title
}

// Amount writes an amount of this path without its currency.
func (p Path) Amount(d decimal.Decimal) string { return p.money(d) }

// Money writes an amount of this path with its currency.
func (p Path) Money(d decimal.Decimal) string {
	return strings.TrimSpace(p.money(d) + " " + p.Currency)
}

func (p Path) money(d decimal.Decimal) string {
	if p.price == nil {
		return d.StringFixed(2)
	}
	return p.price(d)
}

// exact writes an amount with all its places, at least those that money has here.
func (p Path) exact(d decimal.Decimal) string {
	text := p.money(d)
	if same, err := decimal.NewFromString(text); err != nil || !same.Equal(d) {
		return d.String()
	}
	return text
}

// build makes the path of one set of repairs and one mix of offers.
func (a *ask) build(set []*tree.Repair, wants []need, mix []Price) Path {
	p := Path{Repairs: set, Currency: a.book.Shop.Currency, Worth: a.worth, price: a.book.Shop.Format, settings: a.settings}
	for _, r := range set {
		p.Minutes += r.Minutes
		p.Converts = p.Converts || r.Kind == tree.Conversion
		p.Law = append(p.Law, r.Law...)
		p.Before = union(p.Before, r.Before)
		p.Checks = union(p.Checks, r.Checks)
		p.Tools = union(p.Tools, r.Tools)
		p.Cautions = a.cautions(p.Cautions, r.Cautions)
	}
	for _, n := range wants {
		i := slices.IndexFunc(mix, func(m Price) bool { return m.Part == n.part.ID })
		if i < 0 {
			p.Unpriced = append(p.Unpriced, n.part)
			continue
		}
		p.Lines = append(p.Lines, line(n, mix[i], a.book.Shop))
	}
	p.ID = pathID(p)
	p.Waits, p.Saved = a.waits(set), a.saved(set)
	a.charge(&p)
	a.layOut(&p)
	a.trade(&p)
	a.expect(&p)
	a.warn(&p)
	p.Warn = append(p.Warn, saying(p.Lines, mix)...)
	return p
}

func union(into, more []string) []string {
	for _, s := range more {
		if !slices.Contains(into, s) {
			into = append(into, s)
		}
	}
	return into
}

func (a *ask) cautions(into []*tree.Caution, ids []string) []*tree.Caution {
	for _, id := range ids {
		if c := a.lib.Cautions[id]; c != nil && !slices.Contains(into, c) {
			into = append(into, c)
		}
	}
	return into
}

// waits are the masked and untested faults that no repair of the set clears.
func (a *ask) waits(set []*tree.Repair) []*tree.Fault {
	var out []*tree.Fault
	for _, f := range a.open {
		cleared := slices.ContainsFunc(set, func(r *tree.Repair) bool { return slices.Contains(r.Clears, f.ID) })
		if !cleared {
			out = append(out, f)
		}
	}
	return out
}

func (a *ask) warn(p *Path) {
	if p.Worth.IsPositive() && p.Share.GreaterThan(a.book.Shop.WarnAbove) && a.book.Shop.WarnAbove.IsPositive() {
		p.Warn = append(p.Warn, fmt.Sprintf("costs %s %% of what the sound machine is worth (%s)", p.Share, p.Money(p.Worth)))
	}
	if p.Deposit.IsPositive() {
		p.Warn = append(p.Warn, p.Money(p.Deposit)+" core deposit on top, back with the old part")
	}
	for _, l := range p.Lines {
		if l.stuck() {
			p.Warn = append(p.Warn, fmt.Sprintf("%s can't be returned: be sure before it is ordered", l.Part.Title))
		}
	}
	pairs := a.match(p)
	p.apart, p.Warn = len(pairs), append(p.Warn, pairs...)
	for _, part := range p.Unpriced {
		p.Warn = append(p.Warn, fmt.Sprintf("%s has no price: the total leaves it out", part.Title))
	}
	if lacks := a.book.Shop.Lacks(p.Tools); len(lacks) > 0 {
		p.Warn = append(p.Warn, "not among the shop's tools: "+strings.Join(lacks, ", "))
	}
}
