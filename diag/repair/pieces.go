package repair

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/money"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// mostPieces is how many pieces of one part are offered: the cheapest.
const mostPieces = 3

// pieces are the offers of the parts bin for a part. Of those that cost the same the
// one is offered whose test is newer.
func (a *ask) pieces(part *tree.Part) []Price {
	newest := slices.Clone(a.choices.Pieces)
	slices.SortStableFunc(newest, func(x, y job.Shelved) int { return cmp.Compare(y.At, x.At) })
	var out []Price
	for _, s := range newest {
		if s.Part != part.ID || !s.Free() {
			continue
		}
		if each, err := a.book.asking(part, s); err == nil {
			out = append(out, Price{Part: part.ID, Grade: Bin, Each: each, Stock: 1, Note: pieceNote(s), Piece: s.Name, Shown: s.Shown})
		}
	}
	slices.SortStableFunc(out, func(x, y Price) int { return x.Each.Cmp(y.Each) })
	out = onePerPrice(out)
	return out[:min(len(out), mostPieces)]
}

// onePerPrice keeps the first of those that cost the same, and says how many there are.
func onePerPrice(pieces []Price) []Price {
	var out []Price
	for len(pieces) > 0 {
		n := 1
		for n < len(pieces) && pieces[n].Each.Equal(pieces[0].Each) {
			n++
		}
		first := pieces[0]
		if n > 1 {
			first.says = append(slices.Clone(first.says), fmt.Sprintf("one of %d pieces at the same price, the one tested last", n))
		}
		out, pieces = append(out, first), pieces[n:]
	}
	return out
}

// asking is what a piece is offered for. The error says why it is not: what the
// trees ask of such a part by now, or its price.
func (b *PriceBook) asking(part *tree.Part, s job.Shelved) (decimal.Decimal, error) {
	if err := forBin(part, s.Shown); err != nil {
		return decimal.Zero, err
	}
	if s.Currency != b.Shop.Currency {
		return decimal.Zero, fmt.Errorf("its price is in %s, the shop's money is %s", source.CleanLine(s.Currency), b.Shop.Currency)
	}
	each, err := money.Parse(s.Asking)
	if err != nil {
		return decimal.Zero, fmt.Errorf("its asking price: %w", err)
	}
	return each, nil
}

// NotOffered says why a piece that lies in the bin is offered for no repair; nil
// when it is.
func (b *PriceBook) NotOffered(lib *tree.Library, s job.Shelved) error {
	part := lib.Parts[s.Part]
	if part == nil {
		return noPart(lib, s.Part)
	}
	_, err := b.asking(part, s)
	return err
}

// keeps says whether the shop keeps this part in the bin of its record: then the
// record says what there is, and not the price book.
func (c Choices) keeps(part string) bool {
	return slices.ContainsFunc(c.Pieces, func(s job.Shelved) bool { return s.Part == part })
}

// pieceNote is what a buyer of the piece has to know: what it is, what was read
// on it, where it lies, and where it is from.
func pieceNote(s job.Shelved) string {
	from := "piece " + s.Name
	if s.Job != 0 {
		from += fmt.Sprintf(" from job %d", s.Job)
	}
	var out []string
	for _, text := range []string{s.Words, strings.Join(s.Shown, "; "), s.Place, from} {
		if text = source.CleanLine(text); text != "" {
			out = append(out, text)
		}
	}
	return strings.Join(out, "; ")
}

// FromBin are the lines of the path that come out of the parts bin.
func (p Path) FromBin() []Line {
	return slices.DeleteFunc(slices.Clone(p.Lines), func(l Line) bool { return l.Piece == "" })
}
