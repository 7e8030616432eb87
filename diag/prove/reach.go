package prove

import (
	"slices"

	"benchlead/diag/tree"
)

// reach is what a tree can come to in one system.
type reach struct {
	system     *tree.System
	tree       *tree.Tree
	trees      []*tree.Tree // itself, and those that it walks
	judges     []string     // the faults of all of them
	tests      []*tree.Test // all that they may ask, with what those are worked out from
	complaints map[string]bool
}

func reachOf(lib *tree.Library, t *tree.Tree, sys *tree.System) *reach {
	r := &reach{system: sys, tree: t, trees: walked(lib, t, nil), complaints: map[string]bool{}}
	if sys == nil {
		return r
	}
	for _, in := range r.trees {
		for _, fault := range in.Judges {
			if !slices.Contains(r.judges, fault) {
				r.judges = append(r.judges, fault)
			}
		}
		for _, s := range in.Steps {
			if s.Kind == tree.Ask {
				r.ask(s.Test)
			}
		}
	}
	for _, c := range sys.Complaints {
		for _, id := range c.Trees {
			if first := lib.Trees[id]; first != nil && slices.Contains(walked(lib, first, nil), t) {
				r.complaints[c.ID] = true
			}
		}
	}
	return r
}

// ask adds a test and its inputs.
func (r *reach) ask(id string) {
	test := r.system.Test(id)
	if test == nil || slices.Contains(r.tests, test) {
		return
	}
	r.tests = append(r.tests, test)
	for _, input := range test.Inputs() {
		r.ask(input)
	}
}

// walked are a tree and those it walks, itself first.
func walked(lib *tree.Library, t *tree.Tree, had []*tree.Tree) []*tree.Tree {
	if t == nil || slices.Contains(had, t) {
		return had
	}
	had = append(had, t)
	for _, s := range t.Steps {
		if s.Kind == tree.Sub {
			had = walked(lib, lib.Trees[s.Tree], had)
		}
	}
	return had
}
