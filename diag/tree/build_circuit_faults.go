package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/formula"
)

// breakages builds the faults of a circuit.
func (b *builder) breakages(c *circuitNotes) {
	known := newRegister("fault", " in the circuit", "faults")
	for _, s := range c.file.Faults {
		there := b.refer(c.faults, s.Fault) && b.add(known, s.Fault, faultID)
		if len(s.Ways) == 0 {
			b.report(CodeMissing, s.Fault.Place, fmt.Sprintf("nothing says in which ways %s comes about", s.Fault.Text), "add ways: [{way: ..., set: {...}}]")
		}
		f := Breakage{Fault: s.Fault.Text, Common: b.weight(s.Common), Place: s.Fault.Place}
		ways := newRegister("way", "", "ways")
		for _, w := range s.Ways {
			if b.add(ways, w.Way, words) {
				f.Ways = append(f.Ways, b.way(c, w))
			}
		}
		if s.Holds != nil {
			h := b.condition(c, *s.Holds)
			b.stateless(c, h)
			f.Holds = &h
		}
		if there {
			c.out.Faults = append(c.out.Faults, f)
		}
	}
}

// together builds the sets of faults that come together.
func (b *builder) together(c *circuitNotes) {
	had := map[string]bool{}
	for _, s := range c.file.Together {
		place := first(s.Faults)
		t := Together{Faults: b.inSystem(c, s.Faults), Common: b.weight(s.Common), Charge: s.Charge.Value, Why: b.tell(s.Why), Place: place}
		name := strings.Join(t.Faults, " ")
		switch {
		case len(s.Faults) < 2:
			b.report(CodeMissing, place, "faults that come together are at least two", "add the other one")
		case len(t.Faults) < len(s.Faults): // reported
		case had[name]:
			b.report(CodeTwice, place, "these faults stand together already", "take one of the two away")
		default:
			had[name] = true
			c.out.Together = append(c.out.Together, t)
		}
	}
}

// inSystem is the faults named that the circuit has, in its order.
func (b *builder) inSystem(c *circuitNotes, named []word) []string {
	var out []string
	for _, w := range named {
		switch {
		case !slices.ContainsFunc(c.out.Faults, func(f Breakage) bool { return f.Fault == w.Text }):
			if b.refer(c.faults, w) {
				b.report(CodeUnused, w.Place, fmt.Sprintf("the circuit does not say what %s changes", w.Text), "add it under faults:, or take it away here")
			}
		case slices.Contains(out, w.Text):
			b.report(CodeTwice, w.Place, fmt.Sprintf("%s is named twice", w.Text), "take one away")
		default:
			out = append(out, w.Text)
		}
	}
	order := func(id string) int {
		return slices.IndexFunc(c.out.Faults, func(f Breakage) bool { return f.Fault == id })
	}
	slices.SortFunc(out, func(a, b string) int { return order(a) - order(b) })
	return out
}

func (b *builder) way(c *circuitNotes, s wayShape) Way {
	w := Way{Name: s.Way.Text, Share: b.weight(s.Share), Place: s.Way.Place}
	names := c.names
	if s.Severity != nil {
		b.severity(s.Severity)
		w.From, w.To, w.ByRatio = s.Severity.From.Value, s.Severity.To.Value, s.Severity.By.Text == "ratio"
		names = names.With("severity", formula.Plain)
	}
	for _, change := range s.Set {
		if built, ok := b.change(c, change, names); ok {
			w.Set = append(w.Set, built)
		}
	}
	if s.Severity != nil && len(w.Set) == len(s.Set) && !slices.ContainsFunc(w.Set, takesSeverity) {
		b.report(CodeUnused, s.Severity.Place, fmt.Sprintf("nothing in the way %q depends on its severity", w.Name), "mention severity in set:, or take it away")
	}
	return w
}

func takesSeverity(c Change) bool {
	return c.To == nil && c.Word == "" || c.To != nil && slices.Contains(c.To.Needs(), "severity")
}

// severity checks that the range rises, and how it is drawn.
func (b *builder) severity(s *severityShape) {
	switch {
	case !s.From.Given || !s.To.Given:
	case s.From.Value >= s.To.Value:
		b.report(CodeBadNumber, s.From.Place, fmt.Sprintf("a severity from %g to %g doesn't rise", s.From.Value, s.To.Value), "swap them; without a range, write the number in set: itself")
	case s.By.Text == "ratio" && s.From.Value <= 0:
		b.report(CodeBadNumber, s.From.Place, fmt.Sprintf("a severity drawn by ratio can't begin at %g", s.From.Value), "write a number above 0, or take by: away")
	}
	b.only(s.By, "a way to draw a severity", []string{"ratio", "difference"})
}
