package repair

import (
	"fmt"
	"slices"

	"benchlead/diag/tree"
)

// match names each pair of parts that belong together and of which the path buys one
// alone, or both apart: a pack and the charger that stays.
func (a *ask) match(p *Path) []string {
	var out []string
	off := a.takenOff(p)
	for i, l := range p.Lines {
		for _, id := range a.mates(l) {
			mate, other := a.lib.Parts[id], p.line(id)
			switch {
			case mate == nil:
			case other != nil && apart(l, *other):
				// Told at the first of the two that names the other.
				if j := p.at(id); j > i || !slices.Contains(a.mates(*other), l.Part.ID) {
					out = append(out, fmt.Sprintf("must match: %s (%s) and %s (%s) are bought apart",
						tree.InSentence(l.Part.Title), l.source(), tree.InSentence(mate.Title), other.source()))
				}
			case other == nil && a.onMachine(id) && !slices.Contains(off, id):
				out = append(out, fmt.Sprintf("must match: %s (%s) and %s, which stays",
					tree.InSentence(l.Part.Title), l.source(), tree.InSentence(mate.Title)))
			}
		}
	}
	return out
}

// mates are the parts that a line has to match: by the trees, and by the set that it is
// sold in.
func (a *ask) mates(l Line) []string {
	out := slices.Clone(l.Part.With)
	if l.Set == "" {
		return out
	}
	for _, o := range a.book.Prices {
		if o.Set == l.Set && o.Part != l.Part.ID {
			out = union(out, []string{o.Part})
		}
	}
	return out
}

// apart says that two parts of one set don't come as one: another grade, another
// seller, another set.
func apart(x, y Line) bool {
	return x.Grade != y.Grade || x.Supplier != y.Supplier || x.Set != y.Set
}

// source is where a line comes from, in words.
func (l Line) source() string {
	if l.Supplier == "" {
		return string(l.Grade)
	}
	return string(l.Grade) + ", " + l.Supplier
}
