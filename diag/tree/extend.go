package tree

import (
	"fmt"
	"maps"
	"slices"
)

// A system that extends another is that one with some things otherwise: what it
// writes itself stands in the place of what has the same id there, what stands
// in without: is left out, and all else is taken over, trees and repairs too.

// extended is a system's shape with what it takes over from the one it extends.
// Of its contents only its own are in it.
func (b *builder) extended(s *systemShape) *systemShape {
	base := b.baseOf(s)
	if base == nil {
		if len(s.Complaints) == 0 && !s.Extends.Given() && s.System.Given() && !b.badFiles[s.System.Place.File] {
			b.report(CodeMissing, s.System.Place, "\"complaints\" is missing", "add complaints: what the owner says, and the trees that answer it")
		}
		return s
	}
	out := *s
	out.Include = united(base.Include, s.Include)
	if len(s.Complaints) == 0 {
		out.Complaints = base.Complaints
	}
	if s.Sketch == nil {
		out.Sketch = base.Sketch
	}
	if len(s.HandBack) == 0 {
		out.HandBack = base.HandBack
	}
	if len(s.Well) == 0 {
		out.Well = base.Well
	}
	if !s.Machine.Given() {
		out.Machine = base.Machine
	}
	return &out
}

// baseOf reports a system that can't be extended, and is the one that is; nil if
// none.
func (b *builder) baseOf(s *systemShape) *systemShape {
	base := b.baseNamed(s.Extends.Text)
	switch {
	case !s.Extends.Given() || base != nil:
	case slices.ContainsFunc(b.systemShapes, func(o *systemShape) bool { return o.System.Text == s.Extends.Text }):
		b.report(CodeRound, s.Extends.Place, fmt.Sprintf("%q extends another system itself", s.Extends.Text), "extend the one that it extends")
	default:
		b.report("unknown-system", s.Extends.Place, fmt.Sprintf("there is no system %q", s.Extends.Text), "name a system file's id")
	}
	return base
}

// allOf is all that a system has: its own, what it takes over and what both
// include.
func (b *builder) allOf(s *systemShape, included []string, shared map[string]*sharedShape, everything catalogue) contents {
	base := b.baseNamed(s.Extends.Text)
	gather := func(fit func(contents) contents) contents {
		all := contents{}
		for _, id := range included {
			all = merged(all, fit(shared[id].contents))
		}
		if base == nil {
			return merged(s.contents, all)
		}
		return s.contents.over(merged(fit(base.contents), all), texts(s.Without))
	}
	all := gather(func(c contents) contents { return c })
	if base != nil {
		taken := base.contents // what stands in without: is no longer in all
		for _, id := range included {
			taken = merged(taken, shared[id].contents)
		}
		b.withoutKnown(s, taken)
	}
	return gather(func(c contents) contents { return everything.fitted(c, all) })
}

// withoutKnown reports what a system goes without though nothing is called so.
func (b *builder) withoutKnown(s *systemShape, taken contents) {
	known := newRegister("thing to leave out", "", "the system that it extends")
	for _, id := range taken.ids() {
		known.at[id.Text] = id.Place
	}
	maps.Copy(known.at, b.treeIDs.at)
	for _, lists := range b.stockShapes {
		for _, r := range lists.Repairs {
			known.at[r.Repair.Text] = r.Repair.Place
		}
	}
	b.referAll(known, s.Without)
}

// ids are the ids of all that can be left out.
func (c contents) ids() []word {
	var out []word
	for _, s := range c.History {
		out = append(out, s.Choice)
	}
	for _, s := range c.Label {
		out = append(out, s.Field)
	}
	for _, s := range c.Points {
		out = append(out, s.Point)
	}
	for _, s := range c.States {
		out = append(out, s.State)
	}
	for _, s := range c.Setups {
		out = append(out, s.Setup)
	}
	for _, s := range c.Work {
		out = append(out, s.Work)
	}
	for _, s := range c.Tests {
		out = append(out, s.Test)
	}
	for _, s := range c.Faults {
		out = append(out, s.Fault)
	}
	return append(out, c.Service...)
}

// baseNamed is a system that may be extended; nil if there is none. It extends
// nothing itself: two steps of difference are more than anybody sees.
func (b *builder) baseNamed(id string) *systemShape {
	i := slices.IndexFunc(b.systemShapes, func(s *systemShape) bool { return id != "" && s.System.Text == id })
	if i < 0 || b.systemShapes[i].Extends.Given() {
		return nil
	}
	return b.systemShapes[i]
}

// over lays own contents over those of another system.
func (c contents) over(base contents, without []string) contents {
	return contents{
		History: laid(c.History, base.History, without, func(s choiceShape) string { return s.Choice.Text }),
		Label:   laid(c.Label, base.Label, without, func(s labelShape) string { return s.Field.Text }),
		Points:  laid(c.Points, base.Points, without, func(s pointShape) string { return s.Point.Text }),
		States:  laid(c.States, base.States, without, func(s stateShape) string { return s.State.Text }),
		Setups:  laid(c.Setups, base.Setups, without, func(s setupShape) string { return s.Setup.Text }),
		Work:    laid(c.Work, base.Work, without, func(s workShape) string { return s.Work.Text }),
		Tests:   laid(c.Tests, base.Tests, without, func(s testShape) string { return s.Test.Text }),
		Faults:  laid(c.Faults, base.Faults, without, func(s faultShape) string { return s.Fault.Text }),
		Service: laid(c.Service, base.Service, without, func(w word) string { return w.Text }),
		NotFor:  slices.Concat(base.NotFor, c.NotFor),
		Agree:   slices.Concat(base.Agree, c.Agree),
	}
}

// laid is the list base with what own has of the same id in its place, what
// without names left out, and the rest of own at the end; but what own writes
// before such a one stands before it there too, so that it may be named by it.
func laid[T any](own, base []T, without []string, id func(T) string) []T {
	known, at := map[string]bool{}, map[string]int{}
	for _, x := range base {
		known[id(x)] = true
	}
	for i, x := range own {
		at[id(x)] = i
	}
	var out []T
	put := make([]bool, len(own))
	add := func(i int) {
		if !put[i] {
			out, put[i] = append(out, own[i]), true
		}
	}
	for _, x := range base {
		i, replaced := at[id(x)]
		if !replaced {
			if !slices.Contains(without, id(x)) {
				out = append(out, x)
			}
			continue
		}
		first := i
		for first > 0 && !known[id(own[first-1])] {
			first--
		}
		for k := first; k <= i; k++ {
			add(k)
		}
	}
	for i := range own {
		add(i)
	}
	return out
}

func united(a, b []word) []word { return slices.Concat(a, notIn(b, a)) }

// notIn is the words of list that other lacks.
func notIn(list, other []word) []word {
	return slices.DeleteFunc(slices.Clone(list), func(w word) bool {
		return slices.ContainsFunc(other, func(o word) bool { return o.Text == w.Text })
	})
}
