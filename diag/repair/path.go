package repair

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
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
	Warn    []string        // too dear for what it is worth, no refund, no price ...

	Before   []string    // what must be true before this is chosen
	Law      []tree.Rule // rules it must meet, each with ways of which one must hold
	Cautions []*tree.Caution
	Checks   []string // tests taken again to prove it
	Tools    []string
	// Waits are the faults not judged yet that this path doesn't repair. They
	// could still cost: buy nothing for them yet.
	Waits []*tree.Fault

	price func(decimal.Decimal) string
}

// Line is one part of a path with where it comes from.
type Line struct {
	Part     *tree.Part
	Qty      int
	Grade    Grade
	Each     decimal.Decimal
	Sum      decimal.Decimal
	InHand   bool // enough in stock
	LeadDays int  // 0 when in hand
	Returns  bool // the seller takes it back
	Note     string
	Piece    string   // of the parts bin
	Shown    []string // what was read on that piece
}

// Priced says whether every part of the path has a price.
func (p Path) Priced() bool { return len(p.Unpriced) == 0 && p.Currency != "" }

// Title is the path in a few words: its repairs, and the grades of the parts.
func (p Path) Title() string {
	var repairs, grades []string
	for _, r := range p.Repairs {
		repairs = append(repairs, r.Title)
	}
	for _, l := range p.Lines {
		if g := string(l.Grade); !slices.Contains(grades, g) {
			grades = append(grades, g)
		}
	}
	title := strings.Join(repairs, " + ")
	if len(grades) > 0 {
		title += " (" + strings.Join(grades, ", ") + ")"
	}
	return title
}

// Quote freezes the money of the path as exact decimals in text.
func (p Path) Quote() job.Quote {
	return job.Quote{
		Currency: p.Currency, Parts: p.money(p.Parts), Labour: p.money(p.Labour), Other: p.money(p.Other),
		Tax: p.money(p.Tax), Total: p.money(p.Total), Minutes: p.Minutes,
	}
}

// Chosen is the event that takes this path.
func (p Path) Chosen() job.Chosen {
	c := job.Chosen{Path: ChooseRepair, Repairs: []string{}, Quote: p.Quote()}
	for _, r := range p.Repairs {
		c.Repairs = append(c.Repairs, r.ID)
	}
	for _, l := range p.Lines {
		c.Grades = append(c.Grades, l.Part.ID+"="+string(l.Grade))
		c.Lines = append(c.Lines, job.QuoteLine{
			Part: l.Part.ID, Grade: string(l.Grade), Qty: l.Qty, Each: p.money(l.Each), Note: l.Note, Piece: l.Piece, InHand: l.InHand,
		})
	}
	return c
}

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

// compare ranks paths: those with every price first, then by total, minutes
// and ids.
func (p Path) compare(other Path) int {
	return cmp.Or(
		cmp.Compare(lastIf(!p.Priced()), lastIf(!other.Priced())),
		p.Total.Cmp(other.Total),
		cmp.Compare(p.Minutes, other.Minutes),
		cmp.Compare(p.ID, other.ID),
	)
}

// build makes the path of one set of repairs and one mix of offers.
func (a *ask) build(set []*tree.Repair, wants []need, mix []Price) Path {
	p := Path{Repairs: set, Currency: a.book.Shop.Currency, Worth: a.worth, price: a.book.Shop.Format}
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
		p.Lines = append(p.Lines, line(n, mix[i]))
	}
	p.ID = pathID(p)
	p.Waits = a.waits(set)
	a.charge(&p, mix)
	a.warn(&p)
	p.Warn = append(p.Warn, saying(p.Lines, mix)...)
	return p
}

func line(n need, price Price) Line {
	l := Line{
		Part: n.part, Qty: n.qty, Grade: price.Grade, Each: price.Each,
		Sum: price.Each.Mul(decimal.NewFromInt(int64(n.qty))), InHand: price.Stock >= n.qty,
		Returns: price.Returnable, Note: price.Label(), Piece: price.Piece, Shown: price.Shown,
	}
	if !l.InHand {
		l.LeadDays = price.LeadDays
	}
	return l
}

func pathID(p Path) string {
	var repairs, parts []string
	for _, r := range p.Repairs {
		repairs = append(repairs, r.ID)
	}
	for _, l := range p.Lines {
		text := l.Part.ID + "=" + string(l.Grade)
		if l.Note != "" {
			text += " (" + l.Note + ")"
		}
		parts = append(parts, text)
	}
	return strings.TrimSuffix(strings.Join(repairs, "+")+": "+strings.Join(parts, ", "), ": ")
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
	for _, l := range p.Lines {
		if !l.InHand && !l.Returns {
			p.Warn = append(p.Warn, fmt.Sprintf("%s can't be returned: be sure before it is ordered", l.Part.Title))
		}
	}
	for _, part := range p.Unpriced {
		p.Warn = append(p.Warn, fmt.Sprintf("%s has no price: the total leaves it out", part.Title))
	}
	if lacks := a.book.Shop.Lacks(p.Tools); len(lacks) > 0 {
		p.Warn = append(p.Warn, "not among the shop's tools: "+strings.Join(lacks, ", "))
	}
}
