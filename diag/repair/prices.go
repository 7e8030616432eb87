package repair

import (
	"fmt"
	"maps"
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// PriceBook is what a shop asks and pays. It is never changed after LoadPrices.
type PriceBook struct {
	Shop    shop.Settings              // how the shop charges
	Prices  []Price                    // in file order
	Worth   map[string]decimal.Decimal // of a sound machine, by System.ID or System.Machine
	Leaving Leaving

	from        string             // whose prices they are, in words; empty: not said
	leaves      bool               // Leaving is the book's own
	today       string             // 2006-01-02; empty: not known, and no price is old
	offered     map[string][]Price // by part, once the day is known; nil before
	worthPlaces map[string]source.Place
}

// Price is one offer of one part.
type Price struct {
	Part       string
	Grade      Grade
	Supplier   string
	Number     string // the supplier's own
	Each       decimal.Decimal
	Stock      int
	LeadDays   int // when it has to be ordered
	Returnable bool
	Freight    decimal.Decimal // once, when it has to be ordered
	Disposal   decimal.Decimal // of the old part, each
	Core       decimal.Decimal // deposit, each; comes back with the old part
	Date       string          // of the price, 2006-01-02; empty: not known
	ReplacedBy string          // a newer number of the same supplier
	Set        string          // pieces with the same name must be bought together
	Left       decimal.Decimal // of a used part: seasons that it will last; zero: not said, half its usual life
	Note       string
	Piece      string   // of the parts bin; empty for a line of the book
	Shown      []string // what was read on that piece
	Place      source.Place

	says []string // what has to be said with the offer
}

// Leaving is what a machine fetches that isn't repaired.
type Leaving = shop.Leaving

// The codes of what LoadPrices and Check report, beside those of packages shape and money.
const (
	CodeTwice       source.Code = "price-twice"
	CodeUnknownPart source.Code = "unknown-part"
	CodeNeverBin    source.Code = "never-bin"
	CodeUnknownKind source.Code = "unknown-machine"
	CodeReplaced    source.Code = "replaced-by"
	CodeLoop        source.Code = "replaced-in-a-circle"
	CodeDate        source.Code = "bad-date"
	CodeLong        source.Code = "too-long"
)

// Check reports what in the book doesn't fit the library: parts it doesn't
// have, used parts that must never be sold, kinds of machine that no system
// names. A nil book has nothing to report.
func (b *PriceBook) Check(lib *tree.Library) source.Issues {
	var is source.Issues
	if b == nil || lib == nil {
		return nil
	}
	for _, p := range b.Prices {
		part := lib.Parts[p.Part]
		switch {
		case part == nil:
			is = append(is, unknownPart(p, lib))
		case p.Grade == Bin && part.NoBin != "":
			is = append(is, source.Issue{
				Code: CodeNeverBin, Place: p.Place,
				Message: fmt.Sprintf("%s never goes in the parts bin: %s", p.Part, part.NoBin),
				Hint:    "take this line away",
			})
		}
	}
	return append(is, b.checkWorth(lib)...).Sorted()
}

// Fit are the prices that a library can use, and how many it can't: those of parts
// that it doesn't have, and of used parts that must not be sold.
func Fit(prices []Price, lib *tree.Library) (fit []Price, left int) {
	for _, p := range prices {
		if part := lib.Parts[p.Part]; part != nil && (p.Grade != Bin || part.NoBin == "") {
			fit = append(fit, p)
		}
	}
	return fit, len(prices) - len(fit)
}

// nearestPart is the id of a part that may be meant; empty when none is near.
func nearestPart(lib *tree.Library, id string) string {
	return source.Nearest(id, slices.Collect(maps.Keys(lib.Parts)))
}

func unknownPart(p Price, lib *tree.Library) source.Issue {
	is := source.Issue{
		Code: CodeUnknownPart, Place: p.Place,
		Message: fmt.Sprintf("no part is called %q", p.Part), Hint: "write an id from the parts files",
	}
	if near := nearestPart(lib, p.Part); near != "" {
		is.Hint = fmt.Sprintf("did you mean %q?", near)
	}
	return is
}

func (b *PriceBook) checkWorth(lib *tree.Library) source.Issues {
	var kinds []string
	for _, s := range lib.Systems {
		kinds = append(kinds, s.ID, s.Machine)
	}
	var is source.Issues
	for kind, place := range b.worthPlaces {
		if slices.Contains(kinds, kind) {
			continue
		}
		issue := source.Issue{
			Code: CodeUnknownKind, Place: place,
			Message: fmt.Sprintf("%q is neither a system nor a kind of machine", kind),
			Hint:    `write the id of a system, or what it says at "machine"`,
		}
		if near := source.Nearest(kind, kinds); near != "" {
			issue.Hint = fmt.Sprintf("did you mean %q?", near)
		}
		is = append(is, issue)
	}
	return is
}

// worthOf is what the book says a sound machine of this system is worth; zero
// when it doesn't.
func (b *PriceBook) worthOf(sys *tree.System) decimal.Decimal {
	if d, ok := b.Worth[sys.ID]; ok {
		return d
	}
	return b.Worth[sys.Machine]
}
