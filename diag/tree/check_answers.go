package tree

import (
	"fmt"
	"slices"
)

// checkAnswers checks where the answers of one test lead, each beside the others:
// one that stops the work must stop it, and one that a finding goes by must lead
// past the finding when another answer does.
func (b *builder) checkAnswers(d *draft, s *Step) {
	if s.Kind != Ask {
		return
	}
	for _, outcome := range d.outcomesOf(s.Test) {
		to := s.Then[outcome]
		if caution := d.stopsWith(s.Test, outcome); caution != "" && !d.stopsAt(to, caution) {
			b.report(CodeGoesOn, d.place(s.ID, outcome), fmt.Sprintf("%q of %q stops the work (%s), and this leads to %q", outcome, s.Test, caution, to),
				"lead it to a step with stop: and caution: "+caution)
		}
	}
	for _, judging := range d.judgingAfter(s) {
		for _, e := range judging.By {
			if e.Test == s.Test {
				b.passes(d, s, judging, e.Bands)
			}
		}
	}
}

// passes: what is known besides is the same whatever this answer is, so every
// answer that a finding goes by may bring its evidence together. Another step
// that says the same of the fault by this answer does as well.
func (b *builder) passes(d *draft, s, judging *Step, outcomes []string) {
	for _, outcome := range outcomes {
		to, routed := s.Then[outcome]
		if routed && !slices.ContainsFunc(d.chain(to), func(other *Step) bool { return other == judging || other.says(judging, s.Test, outcome) }) {
			b.report(CodePassedBy, d.place(s.ID, outcome), fmt.Sprintf("%q speaks for %q (%s), and this leads past it to %q", outcome, judging.ID, judging.Fault, to),
				fmt.Sprintf("lead it to %q, or take %q out of its evidence", judging.ID, outcome))
		}
	}
}

// says whether a step says the same of a fault as another, by this answer.
func (s *Step) says(judging *Step, test, outcome string) bool {
	return s.Kind == judging.Kind && s.Fault == judging.Fault &&
		slices.ContainsFunc(s.By, func(e Evidence) bool { return e.Test == test && slices.Contains(e.Bands, outcome) })
}

// chain is the find and clear steps that one comes to from a step without another
// test, that step first.
func (d *draft) chain(id string) []*Step {
	var out []*Step
	for s := d.tree.Step(id); s != nil && (s.Kind == Find || s.Kind == Clear) && !slices.Contains(out, s); s = d.tree.Step(s.Next) {
		out = append(out, s)
	}
	return out
}

// judgingAfter is the find and clear steps that some answer leads to at once, in
// the order of the tree.
func (d *draft) judgingAfter(s *Step) []*Step {
	all := map[*Step]bool{}
	for _, to := range s.Then {
		for _, judging := range d.chain(to) {
			all[judging] = true
		}
	}
	var out []*Step
	for _, step := range d.tree.Steps {
		if all[step] {
			out = append(out, step)
		}
	}
	return out
}

// stopsWith is the caution with which an answer stops the work, in any system of
// the tree; "" when it doesn't.
func (d *draft) stopsWith(test, outcome string) string {
	for _, n := range d.notes {
		t := n.system.Test(test)
		if t == nil {
			continue
		}
		for _, band := range t.Bands {
			if band.Name == outcome && band.Stops {
				return band.Danger
			}
		}
		for _, c := range t.Choices {
			if c.Name == outcome && c.Stops {
				return c.Danger
			}
		}
	}
	return ""
}

// stopsAt says whether a step stops the work with a caution.
func (d *draft) stopsAt(id, caution string) bool {
	s := d.tree.Step(id)
	return s != nil && s.Kind == Stop && s.Caution == caution
}
