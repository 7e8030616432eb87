package tree

import (
	"fmt"
	"slices"
)

// A tree that extends another is that one with some steps otherwise: its own
// steps stand in the place of those of the same name, those in without: are left
// out, and so are faults that it judges no more. A system that extends another
// and goes without its tree has such a one instead.

// wholeTree is a tree's shape with what it takes over from the one it extends.
func (b *builder) wholeTree(s *treeShape) *treeShape {
	if !s.Extends.Given() {
		b.ownTree(s)
		return s
	}
	base := b.baseOfTree(s)
	if base == nil {
		return s
	}
	without := texts(s.Without)
	out := *s
	out.Judges = slices.DeleteFunc(united(base.Judges, s.Judges), func(w word) bool { return slices.Contains(without, w.Text) })
	if !s.Begin.Given() {
		out.Begin = base.Begin
	}
	if s.Inner.Place.Line == 0 {
		out.Inner = base.Inner
	}
	known := newRegister("thing to leave out", "", "the tree that it extends")
	for _, w := range base.Judges {
		known.at[w.Text] = w.Place
	}
	for _, step := range base.Steps {
		known.at[step.ID.Text] = step.ID.Place
	}
	b.referAll(known, s.Without)
	out.Steps = laid(s.Steps, base.Steps, without, func(s stepShape) string { return s.ID.Text })
	return &out
}

// ownTree reports what a tree that extends none must have.
func (b *builder) ownTree(s *treeShape) {
	if b.badFiles[s.Tree.Place.File] {
		return
	}
	if !s.Begin.Given() {
		b.report(CodeMissing, s.Tree.Place, fmt.Sprintf("the tree %q lacks \"begin\"", s.Tree.Text), "add begin: STEP")
	}
	if len(s.Steps) == 0 {
		b.report(CodeMissing, s.Tree.Place, fmt.Sprintf("the tree %q lacks \"steps\"", s.Tree.Text), "add steps: ...")
	}
	if len(s.Without) > 0 {
		b.report(CodeNotBoth, s.Without[0].Place, "there is nothing to leave out of a tree that extends none", "take without: away, or add extends: TREE")
	}
}

// baseOfTree is the tree that one extends; nil if none.
func (b *builder) baseOfTree(s *treeShape) *treeShape {
	if !b.refer(b.treeIDs, s.Extends) {
		return nil
	}
	i := slices.IndexFunc(b.treeShapes, func(other *treeShape) bool { return other.Tree.Text == s.Extends.Text })
	if base := b.treeShapes[i]; !base.Extends.Given() {
		return base
	}
	b.report(CodeRound, s.Extends.Place, fmt.Sprintf("%q extends another tree itself", s.Extends.Text), "extend the one that it extends")
	return nil
}
