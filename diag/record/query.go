package record

import (
	"cmp"
	"slices"
	"strings"
)

// Query is what is looked for. Every condition has to hold.
type Query struct {
	All      []Any
	From, To int64 // of the intake, microseconds since 1970 UTC, To not included; 0: no bound
	Most     int   // how many cards to give, the newest; 0: none
}

// Any is one condition: a mark of the job begins with one of Begins, or is one
// of Is.
type Any struct {
	Begins []string
	Is     []string
}

// Answer is what was found: the newest cards by intake, and how many more there
// are. More is counted up to ManyMore; that many means so many or more.
type Answer struct {
	Cards []Card
	More  int
}

// ManyMore is how far jobs are counted that are not given. Judgement: who has more
// looks for something narrower.
const ManyMore = 100

// Fits says whether a job is one of those that are looked for.
func (q Query) Fits(c Card) bool {
	if c.OpenedAt < q.From && q.From != 0 || c.OpenedAt >= q.To && q.To != 0 {
		return false
	}
	return !slices.ContainsFunc(q.All, func(a Any) bool { return !a.fits(c.Marks) })
}

func (a Any) fits(marks []string) bool {
	return slices.ContainsFunc(marks, func(m string) bool {
		return slices.Contains(a.Is, m) || slices.ContainsFunc(a.Begins, func(b string) bool { return strings.HasPrefix(m, b) })
	})
}

// Pick looks among cards, as a record does that has more of them.
func (q Query) Pick(cards []Card) Answer {
	var fit []Card
	for _, c := range cards {
		if q.Fits(c) {
			fit = append(fit, c)
		}
	}
	slices.SortFunc(fit, func(a, b Card) int {
		return cmp.Or(cmp.Compare(b.OpenedAt, a.OpenedAt), cmp.Compare(b.ID, a.ID))
	})
	most := min(q.Most, len(fit))
	return Answer{Cards: fit[:most], More: min(len(fit)-most, ManyMore)}
}
