package tree

import "fmt"

// agree builds what readings can't be beside each other. They are read in one unit, so
// that one can be held against the other.
func (b *builder) agree(n *systemNotes, shapes []agreeShape) {
	for _, s := range shapes {
		if b.quiet && !n.tests.has(s.Most.Text) || !b.refer(n.tests, s.Most) {
			continue
		}
		most := n.system.tests[s.Most.Text]
		out := Agree{Most: s.Most.Text, Says: b.tell(s.Says), Place: s.Most.Place}
		out.Basis, _ = b.basis(s.Basis)
		if most == nil || !b.isRead(s.Most, most) {
			continue
		}
		for _, w := range b.referAll(n.tests, s.Each) {
			t := n.system.tests[w]
			at := wordOf(s.Each, w)
			switch {
			case t == nil || !b.isRead(at, t):
			case t == most:
				b.report(CodeNotBoth, at.Place, fmt.Sprintf("%q is held against itself", w), "name another test, or take it away here")
			case t.dim != most.dim:
				b.report(CodeWrongUnit, at.Place, fmt.Sprintf("%q is read in %s and %q in %s", w, t.Unit, most.ID, most.Unit), "name tests that are read in one unit")
			default:
				out.Each = append(out.Each, w)
			}
		}
		if s.Over.Given && s.Over.Value <= 0 {
			b.report(CodeBadNumber, s.Over.Place, fmt.Sprintf("over: %g leaves no room for two tries that differ", s.Over.Value), "write how far they may differ on a sound machine, above 0, in "+most.Unit)
		}
		out.Over = s.Over.Value * most.PerUnit
		n.system.Agree = append(n.system.Agree, out)
	}
}

// isRead reports a test that no meter reads: what is worked out or seen can't be taken again.
func (b *builder) isRead(w word, t *Test) bool {
	if t.Kind == Metered || t.Kind == "" {
		return t.Kind == Metered
	}
	b.report(CodeTestKind, w.Place, fmt.Sprintf("%q is %s, and can't be taken again", w.Text, t.Kind), "name meter readings")
	return false
}

func wordOf(words []word, text string) word {
	for _, w := range words {
		if w.Text == text {
			return w
		}
	}
	return word{}
}
