package repair

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/shop"
	"benchlead/diag/tree"
)

// Line is one part of a path with where it comes from.
type Line struct {
	Part     *tree.Part
	Qty      int
	Grade    Grade
	Supplier string
	Set      string          // pieces with the same name are bought together
	Cost     decimal.Decimal // what the shop pays for one; Each while its grade has no markup
	Each     decimal.Decimal // what the customer pays for one
	Sum      decimal.Decimal // of Each
	InHand   bool            // enough in stock
	LeadDays int             // 0 when in hand
	Returns  bool            // the seller takes it back
	Note     string
	Piece    string   // of the parts bin
	Shown    []string // what was read on that piece

	freight  decimal.Decimal // 0 when in hand
	disposal decimal.Decimal // of the old parts
	core     decimal.Decimal // deposits
	left     decimal.Decimal // seasons that a used part will last; 0: not said
}

func line(n need, price Price, s shop.Settings) Line {
	qty := decimal.NewFromInt(int64(n.qty))
	each := price.Each // of a piece of the parts bin what is asked for it
	if price.Piece == "" {
		each = s.Price(string(price.Grade), price.Each)
	}
	l := Line{
		Part: n.part, Qty: n.qty, Grade: price.Grade, Supplier: price.Supplier, Set: price.Set,
		Cost: price.Each, Each: each, Sum: each.Mul(qty), InHand: price.Stock >= n.qty,
		Returns: price.Returnable, Note: price.Label(), disposal: price.Disposal.Mul(qty), core: price.Core.Mul(qty), left: price.Left,
		Piece: price.Piece, Shown: price.Shown,
	}
	if !l.InHand {
		l.LeadDays, l.freight = price.LeadDays, price.Freight
	}
	return l
}

// atCost is what the shop pays for the line.
func (l Line) atCost() decimal.Decimal { return l.Cost.Mul(decimal.NewFromInt(int64(l.Qty))) }

// How much of where a part is from stands in a title.
const (
	tellSeller = 1 + iota // or the piece of the parts bin
	tellAll               // the number and the note too
)

// from is where it is from, as much of it as is told.
func (l Line) from(told int) string {
	switch {
	case told >= tellSeller && l.Piece != "":
		return "piece " + l.Piece
	case told == tellSeller && l.Supplier != "":
		return "from " + l.Supplier
	case told == tellAll && l.Note != "":
		return "from " + l.Note
	}
	return ""
}

// stuck says that it has to be ordered and can't go back.
func (l Line) stuck() bool { return !l.InHand && !l.Returns }

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

// line is that of a part; nil when the path doesn't buy it.
func (p Path) line(part string) *Line {
	if i := p.at(part); i >= 0 {
		return &p.Lines[i]
	}
	return nil
}

// at is the place of a part's line; below 0 when there is none.
func (p Path) at(part string) int {
	return slices.IndexFunc(p.Lines, func(l Line) bool { return l.Part.ID == part })
}
