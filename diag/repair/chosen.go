package repair

import (
	"maps"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
)

// Quote freezes the money of the path as exact decimals in text.
func (p Path) Quote() job.Quote {
	q := job.Quote{
		Currency: p.Currency, Parts: p.money(p.Parts), Labour: p.money(p.Labour), Other: p.money(p.Other),
		Tax: p.money(p.Tax), Total: p.money(p.Total), Minutes: p.Minutes,
	}
	if p.Deposit.IsPositive() {
		q.Deposit = p.money(p.Deposit)
	}
	return q
}

// Chosen is the event that takes this path: what it was offered for, and with which
// settings, so that a record never changes with a price.
func (p Path) Chosen() job.Chosen {
	c := job.Chosen{Path: ChooseRepair, Repairs: []string{}, Quote: p.Quote(), Shop: maps.Clone(p.settings), Aim: string(p.Aim)}
	for _, r := range p.Repairs {
		c.Repairs = append(c.Repairs, r.ID)
	}
	for _, part := range p.Unpriced {
		c.Unpriced = append(c.Unpriced, part.ID)
	}
	for _, l := range p.Lines {
		c.Grades = append(c.Grades, l.Part.ID+"="+string(l.Grade))
		c.Lines = append(c.Lines, job.QuoteLine{
			Part: l.Part.ID, Grade: string(l.Grade), Qty: l.Qty, Each: p.exact(l.Each), Note: l.Note, Piece: l.Piece, InHand: l.InHand,
		})
	}
	return c
}

// Chosen is the event that takes this way. The quote holds what the customer
// pays: nothing for a machine that the shop takes, else the fee.
func (l Leave) Chosen() job.Chosen {
	q := job.Quote{Currency: l.Currency, Minutes: l.Minutes}
	zero := l.amount(decimal.Zero)
	q.Parts, q.Labour, q.Tax, q.Other, q.Total = zero, zero, zero, zero, zero
	if l.Kind == ChooseReturn {
		q.Other, q.Tax, q.Total = l.amount(l.Costs.Sub(l.Tax)), l.amount(l.Tax), l.amount(l.Costs)
	}
	return job.Chosen{Path: l.Kind, Repairs: []string{}, Quote: q, Shop: maps.Clone(l.settings), Aim: string(l.Aim)}
}
