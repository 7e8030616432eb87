package tree

import (
	"fmt"
	"slices"
)

// notFor builds what some kinds of machine are neither asked nor offered. Only safety
// functions and services may be left out: a shared file names those of all its systems.
func (b *builder) notFor(n *systemNotes, shapes []notForShape) {
	for _, s := range shapes {
		at := slices.IndexFunc(n.system.Label, func(f LabelField) bool { return f.ID == s.Label.Text })
		if at < 0 || len(n.system.Label[at].Options) == 0 {
			if s.Label.Given() && !b.quiet {
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
		for _, w := range s.LeavesOut {
			switch {
			case slices.Contains(n.system.HandBack, w.Text), slices.Contains(n.system.Service, w.Text):
				out.LeavesOut = append(out.LeavesOut, w.Text)
			case !n.tests.has(w.Text) && !b.services.has(w.Text):
				b.refer(b.services, w)
			case n.tests.has(w.Text) && b.ownOf(n, w):
				b.report(CodeUnused, w.Place, fmt.Sprintf("%q is no safety function of system %s", w.Text, n.system.ID), "add it to hand back:, or take it away here")
			}
		}
		n.system.NotFor = append(n.system.NotFor, out)
	}
}

// ownOf says whether a word stands in the system's own file.
func (b *builder) ownOf(n *systemNotes, w word) bool { return w.Place.File == n.at().File }

// HasNot says whether a safety function or a service is one that a machine with these
// label words does not have. A machine of which that was not said has it.
func (s *System) HasNot(id string, words map[string]string) bool {
	return slices.ContainsFunc(s.NotFor, func(n NotFor) bool {
		said, ok := words[n.Field]
		return ok && slices.Contains(n.Says, said) && slices.Contains(n.LeavesOut, id)
	})
}

// HandBackOf are the tests that prove the safety functions of a machine with these
// label words.
func (s *System) HandBackOf(words map[string]string) []string {
	if len(s.NotFor) == 0 {
		return s.HandBack
	}
	return slices.DeleteFunc(slices.Clone(s.HandBack), func(id string) bool { return s.HasNot(id, words) })
}
