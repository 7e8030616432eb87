package repair

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// At is the book as it is read on a day (2006-01-02): prices that are older than
// the shop allows are said to be. What it offers of each part is worked out here, once:
// in a large book that takes longer than all else. The book itself stays as it is.
func (b *PriceBook) At(today string) *PriceBook {
	out := *b
	out.today = today
	lines := map[string][]Price{}
	for _, p := range b.Prices {
		lines[p.Part] = append(lines[p.Part], p)
	}
	out.offered = make(map[string][]Price, len(lines))
	for part, own := range lines {
		out.offered[part] = out.offersAmong(own)
	}
	return &out
}

// Stale says whether a price is older than the shop's settings allow, on the day
// of the book. A price without a date is not: nobody knows.
func (b *PriceBook) Stale(p Price) bool {
	now, err := time.Parse(day, b.today)
	then, wrong := time.Parse(day, p.Date)
	limit := b.Shop.StaleDays
	return err == nil && wrong == nil && limit > 0 && now.After(then.AddDate(0, 0, limit))
}

// offers are the lines for one part, best grade first, then by price. A number
// that was replaced is not offered; the one that it leads to is.
func (b *PriceBook) offers(part string) []Price {
	if b.offered != nil {
		return b.offered[part]
	}
	var lines []Price
	for _, p := range b.Prices {
		if p.Part == part {
			lines = append(lines, p)
		}
	}
	return b.offersAmong(lines)
}

// offersAmong are the offers of the lines of one part.
func (b *PriceBook) offersAmong(lines []Price) []Price {
	var out []Price
	s := newSuccession(lines)
	replaced := s.replaced()
	for i, p := range lines {
		if s.next[i] < 0 || s.end(i) == i {
			p.says = b.says(p, replaced[i])
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(x, y Price) int {
		return cmp.Or(cmp.Compare(x.Grade.rank(), y.Grade.rank()), x.Each.Cmp(y.Each), cmp.Compare(x.LeadDays, y.LeadDays), cmp.Compare(x.Label(), y.Label()))
	})
	return out
}

// replaced are, by line, those that it takes the place of, oldest first.
func (s succession) replaced() map[int][]Price {
	out := map[int][]Price{}
	for i, p := range s.prices {
		if s.next[i] >= 0 && s.end(i) != i {
			out[s.end(i)] = append(out[s.end(i)], p)
		}
	}
	for _, old := range out {
		slices.SortStableFunc(old, func(x, y Price) int { return cmp.Compare(x.Date, y.Date) })
	}
	return out
}

// says is what has to be said with an offer.
func (b *PriceBook) says(p Price, replaced []Price) []string {
	var out []string
	for _, old := range replaced {
		line := fmt.Sprintf("%s replaces %s", p.Number, old.Number)
		if old.Stock > 0 {
			line += fmt.Sprintf(", of which %d are in stock", old.Stock)
		}
		out = append(out, line)
	}
	if p.ReplacedBy != "" {
		out = append(out, fmt.Sprintf("%s is replaced by %s, which has no price", p.Number, p.ReplacedBy))
	}
	if b.Stale(p) {
		out = append(out, fmt.Sprintf("price of %s, older than %d days", p.Date, b.Shop.StaleDays))
	}
	return out
}

// Label is who sells it under which number, and its note: what tells two offers
// of one grade apart.
func (p Price) Label() string {
	seller := strings.TrimSpace(p.Supplier + " " + p.Number)
	switch {
	case seller == "" || p.Note == "":
		return seller + p.Note
	default:
		return seller + ", " + p.Note
	}
}

// saying is what the offers of a path have to say, each with its part.
func saying(lines []Line, mix []Price) []string {
	var out []string
	for _, l := range lines {
		i := slices.IndexFunc(mix, func(m Price) bool { return m.Part == l.Part.ID })
		for _, s := range mix[i].says {
			out = append(out, l.Part.Title+": "+s)
		}
	}
	return out
}
