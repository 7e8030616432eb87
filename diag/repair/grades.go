package repair

import (
	"cmp"
	"slices"

	"benchlead/diag/tree"
)

// mostMixes bounds how many mixes of offers are made for one set of repairs.
// Four parts in three grades each are 81.
const mostMixes = 100

// need is a part with how many of it a set of repairs takes.
type need struct {
	part *tree.Part
	qty  int
}

// needs adds up the parts of a set of repairs, in the order of their use.
func needs(lib *tree.Library, set []*tree.Repair) []need {
	var out []need
	for _, r := range set {
		for _, use := range r.Parts {
			i := slices.IndexFunc(out, func(n need) bool { return n.part.ID == use.Part })
			if i < 0 {
				part := lib.Parts[use.Part]
				if part == nil {
					part = &tree.Part{ID: use.Part, Title: use.Part}
				}
				out = append(out, need{part: part})
				i = len(out) - 1
			}
			out[i].qty += max(use.Qty, 1)
		}
	}
	return out
}

// offersFor are the lines of the book and the pieces of the parts bin that this
// many of the part can come from: a used part only while enough are there, and
// never one that must not be used again. A piece is one; several are never put
// together.
func (a *ask) offersFor(n need) []Price {
	var out []Price
	kept := a.choices.keeps(n.part.ID)
	for _, p := range append(a.book.offers(n.part.ID), a.pieces(n.part)...) {
		switch {
		case p.Grade == Bin && kept && p.Piece == "":
		case len(a.choices.Grades) > 0 && !slices.Contains(a.choices.Grades, p.Grade):
		case p.Grade == Bin && (n.part.NoBin != "" || p.Stock < n.qty):
		default:
			out = append(out, p)
		}
	}
	return out
}

// mixes lists the ways to buy what is needed: every combination of offers while
// there are few, otherwise one mix for each policy (the best of each grade, and
// the cheapest of all). cut is set in the second case. A part without an offer
// takes no place in a mix.
func mixes(offers [][]Price) (all [][]Price, cut bool) {
	count := 1
	for _, o := range offers {
		count *= len(o)
		if count > mostMixes {
			return policies(offers), true
		}
	}
	all = [][]Price{nil}
	for _, o := range offers {
		var longer [][]Price
		for _, mix := range all {
			for _, p := range o {
				longer = append(longer, append(slices.Clone(mix), p))
			}
		}
		all = longer
	}
	return all, false
}

// policies are the mixes that a shop would name first: each grade, the cheapest of
// all, and what is there soonest. Where a grade can't be
// had, the nearest better one stands in, else the cheapest.
func policies(offers [][]Price) [][]Price {
	var all [][]Price
	for _, g := range Grades() {
		all = appendMix(all, offers, func(o []Price) Price { return nearest(o, g) })
	}
	return appendMix(appendMix(all, offers, cheapest), offers, soonest)
}

func appendMix(all [][]Price, offers [][]Price, pick func([]Price) Price) [][]Price {
	var mix []Price
	for _, o := range offers {
		mix = append(mix, pick(o))
	}
	if slices.ContainsFunc(all, func(had []Price) bool { return slices.EqualFunc(had, mix, samePrice) }) {
		return all
	}
	return append(all, mix)
}

func samePrice(a, b Price) bool {
	return a.Part == b.Part && a.Grade == b.Grade && a.Note == b.Note && a.Each.Equal(b.Each)
}

// nearest is the offer in the grade, or in the next better one, or the cheapest.
func nearest(offers []Price, g Grade) Price {
	for rank := g.rank(); rank >= 0; rank-- {
		for _, p := range offers {
			if p.Grade.rank() == rank {
				return p
			}
		}
	}
	return cheapest(offers)
}

func cheapest(offers []Price) Price {
	return slices.MinFunc(offers, func(a, b Price) int {
		return cmp.Or(a.Each.Cmp(b.Each), cmp.Compare(a.Grade.rank(), b.Grade.rank()), cmp.Compare(a.LeadDays, b.LeadDays), cmp.Compare(a.Note, b.Note))
	})
}

// soonest is the offer that is there first, the cheapest of them.
func soonest(offers []Price) Price {
	first := offers[0].wait()
	for _, p := range offers {
		first = min(first, p.wait())
	}
	return cheapest(slices.DeleteFunc(slices.Clone(offers), func(p Price) bool { return p.wait() > first }))
}

// wait is how many days one piece takes.
func (p Price) wait() int {
	if p.Stock > 0 {
		return 0
	}
	return p.LeadDays
}
