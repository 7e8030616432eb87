package tree

import (
	"fmt"
	"slices"
	"strings"
)

// stages builds the work that is worth reading again after.
func (b *builder) stages(c *circuitNotes) {
	known, had := newRegister("stage", " in the circuit", "stages"), map[string]bool{}
	for _, s := range c.file.Stages {
		fresh := b.add(known, s.Stage, plainID)
		out := Stage{
			ID: s.Stage.Text, Title: b.title(s.Title), Work: b.effective(c, s.Work),
			First: b.referAll(c.tests, s.First), Why: b.tell(s.Why), Place: s.Stage.Place,
		}
		name := strings.Join(out.Work, " ")
		switch {
		case !fresh || len(out.Work) < len(s.Work): // reported
		case had[name]:
			b.report(CodeTwice, s.Stage.Place, "another stage is the same work", "take one of the two away")
		default:
			had[name] = true
			c.out.Stages = append(c.out.Stages, out)
		}
	}
}

// effective is the work of a stage. Work that changes nothing in the circuit makes
// no stage.
func (b *builder) effective(c *circuitNotes, named []word) []string {
	var out []string
	for _, w := range named {
		at := slices.IndexFunc(c.out.Work, func(e Effect) bool { return e.Work == w.Text })
		switch {
		case !b.refer(c.work, w): // reported
		case at < 0 || len(c.out.Work[at].Set)+len(c.out.Work[at].Moves) == 0:
			b.report(CodeUnused, w.Place, fmt.Sprintf("%q changes nothing in the circuit", w.Text), "say under work: what it sets or moves, or take it away here")
		case slices.Contains(out, w.Text):
			b.report(CodeTwice, w.Place, fmt.Sprintf("%q is named twice", w.Text), "take one away")
		default:
			out = append(out, w.Text)
		}
	}
	return out
}
