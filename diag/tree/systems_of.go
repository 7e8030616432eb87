package tree

import (
	"fmt"
	"maps"
	"slices"
)

// systemsOf is the systems that a tree or repair is for: those it names, or all
// that include a shared file.
func (b *builder) systemsOf(owner word, names []word, include word) []string {
	switch {
	case include.Given() && len(names) > 0:
		b.report(CodeNotBoth, include.Place, "it names its systems, and a shared file as well", "take one of them away")
	case include.Given():
		if !b.refer(b.sharedIDs, include) {
			return nil
		}
		var out []string
		for _, id := range slices.Sorted(maps.Keys(b.notes)) {
			if b.notes[id].includes[include.Text] && !slices.Contains(texts(b.notes[id].shape.Without), owner.Text) {
				out = append(out, id)
			}
		}
		return out
	case len(names) == 0 && owner.Given() && !b.badFiles[owner.Place.File]:
		b.report(CodeMissing, owner.Place, fmt.Sprintf("nothing says which systems %q is for", owner.Text),
			"add systems: [...], or systems with: a shared file that they include")
	}
	return slices.DeleteFunc(b.withExtending(owner.Text, b.referAll(b.systemIDs, names)), func(id string) bool { return !b.builds(id) })
}

// withExtending adds the systems that extend one of these, unless they go without
// the tree or repair.
func (b *builder) withExtending(owner string, ids []string) []string {
	out := slices.Clone(ids)
	for _, id := range slices.Sorted(maps.Keys(b.notes)) {
		s := b.notes[id].shape
		if slices.Contains(ids, s.Extends.Text) && !slices.Contains(out, id) && !slices.Contains(texts(s.Without), owner) {
			out = append(out, id)
		}
	}
	return out
}
