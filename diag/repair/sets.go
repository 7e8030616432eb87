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
	var told []string // by part: its pairs are told
	off := a.takenOff(p)
	for _, l := range p.Lines {
		told = append(told, l.Part.ID)
		for _, id := range l.Part.With {
			mate, other := a.lib.Parts[id], p.line(id)
			switch {
			case mate == nil || slices.Contains(told, id):
			case other != nil && apart(l, *other):
				out = append(out, fmt.Sprintf("must match: %s (%s) and %s (%s) are bought apart",
					tree.InSentence(l.Part.Title), l.source(), tree.InSentence(mate.Title), other.source()))
			case other == nil && a.onMachine(id) && !slices.Contains(off, id):
				out = append(out, fmt.Sprintf("must match: %s (%s) and %s, which stays",
					tree.InSentence(l.Part.Title), l.source(), tree.InSentence(mate.Title)))
			}
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
