package repair

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// PriceBook is what a shop asks and pays. It is never changed after LoadPrices.
type PriceBook struct {
	Shop    Shop
	Prices  []Price                    // in file order
	Worth   map[string]decimal.Decimal // of a sound machine, by System.ID or System.Machine
	Leaving Leaving

	worthPlaces map[string]source.Place
}

// Shop is how a shop charges. Money is in Currency, LabourRate an hour.
type Shop struct {
	Currency      string
	LabourRate    decimal.Decimal
	MinimumLabour decimal.Decimal
	TaxPercent    decimal.Decimal
	TaxOn         Taxed
	WarnAbove     decimal.Decimal // percent of worth
	RoundTo       decimal.Decimal
	Fee           decimal.Decimal // for the diagnosis
	FeeCredited   bool            // against a repair
	Consumables   decimal.Decimal
}

// Taxed says which lines of a quote are taxed.
type Taxed string

// What is taxed.
const (
	TaxParts Taxed = "parts"
	TaxBoth  Taxed = "both" // everything charged
	TaxNone  Taxed = "none"
)

// Price is one offer of one part.
type Price struct {
	Part       string
	Grade      Grade
	Each       decimal.Decimal
	Stock      int
	LeadDays   int // when it has to be ordered
	Returnable bool
	Freight    decimal.Decimal // once, when it has to be ordered
	Disposal   decimal.Decimal // of the old part, each
	Core       decimal.Decimal // deposit, each; comes back with the old part
	Note       string
	Place      source.Place
}

// Leaving is what a machine fetches that isn't repaired.
type Leaving struct {
	AsIsPercent    decimal.Decimal // of worth
	PartOutPercent decimal.Decimal // of worth
	PartOutMinutes int
}

// The codes of what LoadPrices and Check report, beside those of package tree.
const (
	CodeAmount      source.Code = "bad-amount"
	CodeWord        source.Code = "bad-word"
	CodeCount       source.Code = "bad-count"
	CodeTwice       source.Code = "price-twice"
	CodeUnknownPart source.Code = "unknown-part"
	CodeNeverBin    source.Code = "never-bin"
	CodeUnknownKind source.Code = "unknown-machine"
)

// LoadPrices reads a price book and reports every problem in it. With a
// problem there is no book.
func LoadPrices(f source.File) (*PriceBook, source.Issues) {
	r := &reader{file: &f}
	top := r.open()
	if top == nil {
		return nil, r.issues
	}
	book := &PriceBook{Worth: map[string]decimal.Decimal{}, worthPlaces: map[string]source.Place{}}
	book.Shop.RoundTo = decimal.New(1, -2)
	book.Shop.FeeCredited = true
	r.keys(top, "a price book", fields{
		"shop":    func(n *node) { r.shop(n, &book.Shop) },
		"prices":  func(n *node) { r.prices(n, book) },
		"worth":   func(n *node) { r.worth(n, book) },
		"leaving": func(n *node) { r.leaving(n, &book.Leaving) },
	}, "shop", "prices")
	if len(r.issues) > 0 {
		return nil, r.issues.Sorted()
	}
	return book, nil
}

func (r *reader) shop(n *node, s *Shop) {
	r.keys(n, "the shop", fields{
		"currency":           func(n *node) { s.Currency = r.currency(n) },
		"labour rate":        r.amount(&s.LabourRate),
		"minimum labour":     r.amount(&s.MinimumLabour),
		"tax percent":        r.percent(&s.TaxPercent, 100),
		"tax on":             func(n *node) { s.TaxOn = Taxed(r.oneOf(n, "parts", "both", "none")) },
		"warn above percent": r.percent(&s.WarnAbove, 1000),
		"round to":           r.step(&s.RoundTo),
		"diagnostic fee":     r.amount(&s.Fee),
		"fee credited":       r.yes(&s.FeeCredited),
		"consumables":        r.amount(&s.Consumables),
	}, "currency", "labour rate", "tax percent", "tax on", "warn above percent")
}

func (r *reader) prices(n *node, book *PriceBook) {
	for _, item := range r.items(n, `"prices"`) {
		p := Price{Place: r.at(item)}
		r.keys(item, "a price", fields{
			"part":         func(n *node) { p.Part = r.word(n) },
			"grade":        func(n *node) { p.Grade = Grade(r.oneOf(n, "original", "aftermarket", "bin")) },
			"price":        r.amount(&p.Each),
			"stock":        r.count(&p.Stock, 100_000),
			"lead days":    r.count(&p.LeadDays, 730),
			"returnable":   r.yes(&p.Returnable),
			"freight":      r.amount(&p.Freight),
			"disposal":     r.amount(&p.Disposal),
			"core deposit": r.amount(&p.Core),
			"note":         func(n *node) { p.Note = r.word(n) },
		}, "part", "grade", "price")
		r.twice(book, p)
		book.Prices = append(book.Prices, p)
	}
}

// twice refuses a line that no one could tell from an earlier one.
func (r *reader) twice(book *PriceBook, p Price) {
	for _, had := range book.Prices {
		if p.Part != "" && had.Part == p.Part && had.Grade == p.Grade && had.Note == p.Note {
			r.report(CodeTwice, p.Place,
				fmt.Sprintf("%s in grade %s has a price on line %d already", p.Part, p.Grade, had.Place.Line),
				"keep one of them, or give each seller's line a note of its own")
			return
		}
	}
}

func (r *reader) worth(n *node, book *PriceBook) {
	r.pairs(n, `"worth"`, func(key string, value *node) {
		var d decimal.Decimal
		r.amount(&d)(value)
		book.Worth[key], book.worthPlaces[key] = d, r.at(value)
	})
}

func (r *reader) leaving(n *node, l *Leaving) {
	r.keys(n, `"leaving"`, fields{
		"as is percent":    r.percent(&l.AsIsPercent, 100),
		"part out percent": r.percent(&l.PartOutPercent, 100),
		"part out minutes": r.count(&l.PartOutMinutes, 10_000),
	})
}

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

func unknownPart(p Price, lib *tree.Library) source.Issue {
	var known []string
	for id := range lib.Parts {
		known = append(known, id)
	}
	is := source.Issue{
		Code: CodeUnknownPart, Place: p.Place,
		Message: fmt.Sprintf("no part is called %q", p.Part), Hint: "write an id from the parts files",
	}
	if near := source.Nearest(p.Part, known); near != "" {
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

// offers are the lines for one part, best grade first, then by price.
func (b *PriceBook) offers(part string) []Price {
	var out []Price
	for _, p := range b.Prices {
		if p.Part == part {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(x, y Price) int {
		return cmp.Or(cmp.Compare(x.Grade.rank(), y.Grade.rank()), x.Each.Cmp(y.Each), cmp.Compare(x.LeadDays, y.LeadDays), cmp.Compare(x.Note, y.Note))
	})
	return out
}
