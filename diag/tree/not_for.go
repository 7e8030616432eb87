package tree

import (
	"fmt"
	"slices"
)

// notFor builds what some kinds of machine are neither asked nor offered. Only safety
// functions and services may be left out: a shared file names those of all its systems.
func (b *builder) notFor(n *systemNotes, shapes []notForShape) {
	for _, s := range shapes {
		if s.Test.Given() {
			b.notForSeen(n, s)
			continue
		}
		if !s.Label.Given() {
			place := n.at()
			if len(s.Says) > 0 {
				place = s.Says[0].Place
			}
			b.report(CodeMissing, place, "it does not say by what it goes", "add label: FIELD or test: TEST")
			continue
		}
		at := slices.IndexFunc(n.system.Label, func(f LabelField) bool { return f.ID == s.Label.Text })
		if at < 0 || len(n.system.Label[at].Options) == 0 {
			if !b.quiet {
				b.report("unknown-label-field", s.Label.Place, fmt.Sprintf("the label of system %s has no field %q with options", n.system.ID, s.Label.Text), "name a field that has options:")
			}
			continue
		}
		field := n.system.Label[at]
		out := NotFor{Field: field.ID}
		for _, w := range s.Says {
			if b.only(w, fmt.Sprintf("an option of %q", field.ID), field.Options) {
				out.Says = append(out.Says, w.Text)
			}
		}
		out.LeavesOut = b.leavesOut(n, s)
		n.system.NotFor = append(n.system.NotFor, out)
	}
}

// notForSeen is the same by what was seen on the machine itself: no seat switch.
func (b *builder) notForSeen(n *systemNotes, s notForShape) {
	if s.Label.Given() {
		b.report(CodeNotBoth, s.Test.Place, "it goes by the label or by a test", "take one of label: and test: away")
	}
	if !n.tests.has(s.Test.Text) && b.quiet || !b.refer(n.tests, s.Test) {
		return
	}
	out := NotFor{Test: s.Test.Text}
	var choices []string
	for _, t := range n.system.Tests {
		for _, c := range t.Choices {
			if t.ID == s.Test.Text {
				choices = append(choices, c.Name)
			}
		}
	}
	for _, w := range s.Says {
		if b.only(w, fmt.Sprintf("a choice of %q", s.Test.Text), choices) {
			out.Says = append(out.Says, w.Text)
		}
	}
	out.LeavesOut = b.leavesOut(n, s)
	n.system.NotFor = append(n.system.NotFor, out)
}

// leavesOut are the safety functions and services of the system that are left out.
func (b *builder) leavesOut(n *systemNotes, s notForShape) (out []string) {
	for _, w := range s.LeavesOut {
		switch {
		case slices.Contains(n.system.HandBack, w.Text), slices.Contains(n.system.Service, w.Text):
			out = append(out, w.Text)
		case !n.tests.has(w.Text) && !b.services.has(w.Text):
			b.refer(b.services, w)
		case n.tests.has(w.Text) && b.ownOf(n, w):
			b.report(CodeUnused, w.Place, fmt.Sprintf("%q is no safety function of system %s", w.Text, n.system.ID), "add it to hand back:, or take it away here")
		}
	}
	return out
}

// ownOf says whether a word stands in the system's own file.
func (b *builder) ownOf(n *systemNotes, w word) bool { return w.Place.File == n.at().File }

// HasNot says whether a safety function or a service is one that a machine with these
// label words does not have, or one on which that choice of a test was seen. A machine of
// which nothing was said has it.
func (s *System) HasNot(id string, words map[string]string, seen func(test string) string) bool {
	return slices.ContainsFunc(s.NotFor, func(n NotFor) bool {
		said := words[n.Field]
		if n.Test != "" {
			said = seen(n.Test)
		}
		return said != "" && slices.Contains(n.Says, said) && slices.Contains(n.LeavesOut, id)
	})
}

// HandBackOf are the tests that prove the safety functions of such a machine.
func (s *System) HandBackOf(words map[string]string, seen func(test string) string) []string {
	if len(s.NotFor) == 0 {
		return s.HandBack
	}
	return slices.DeleteFunc(slices.Clone(s.HandBack), func(id string) bool { return s.HasNot(id, words, seen) })
}
