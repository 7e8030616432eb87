package tree

import (
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// breakages builds the faults of a circuit.
func (b *builder) breakages(c *circuitNotes) {
	known := newRegister("fault", " in the circuit", "faults")
	for _, s := range c.file.Faults {
		there := b.refer(c.faults, s.Fault) && b.add(known, s.Fault, faultID)
		b.positive(s.Common)
		if len(s.Ways) == 0 {
			b.report(CodeMissing, s.Fault.Place, fmt.Sprintf("nothing says in which ways %s comes about", s.Fault.Text), "add ways: [{way: ..., set: {...}}]")
		}
		f := Breakage{Fault: s.Fault.Text, Common: s.Common.Value, Place: s.Fault.Place}
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

func (b *builder) way(c *circuitNotes, s wayShape) Way {
	w := Way{Name: s.Way.Text, Share: b.amount(s.Share, 0, 1), Place: s.Way.Place}
	b.positive(s.Share)
	names := c.names
	if s.Severity != nil {
		b.severity(s.Severity)
		w.From, w.To, w.ByRatio = s.Severity.From.Value, s.Severity.To.Value, s.Severity.By.Text == "ratio"
		names = formula.Names{Numbers: maps.Clone(names.Numbers), Words: names.Words, Fixed: names.Fixed}
		names.Numbers["severity"] = formula.Plain
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

// stateless reports a condition that depends on the state of the machine, where
// no test stands behind it that has one.
func (b *builder) stateless(c *circuitNotes, x Condition) {
	if x.State != "" || x.When == nil {
		return
	}
	for _, name := range x.When.Needs() {
		if c.moves.has(name) || !c.names.Has(name) {
			b.report(CodeNoState, x.Place, fmt.Sprintf("%s differs from state to state, and no state is named", name), "add state: STATE")
			return
		}
	}
}

func (b *builder) condition(c *circuitNotes, s conditionShape) Condition {
	out := Condition{When: b.yesNo(c, s.When, c.asked), With: b.referAll(c.setups, s.With), Place: s.Place}
	if b.refer(c.states, s.State) {
		out.State = s.State.Text
	}
	return out
}

// conditions are those of one line; none when it always holds.
func (b *builder) conditions(c *circuitNotes, s whenShape) []Condition {
	var out []Condition
	alone := s.When.Place.Line == 0
	switch {
	case !alone && len(s.All) > 0:
		b.report(CodeNotBoth, s.When.Place, "a line has one condition, or several under all", "move this one into all:")
	case alone && s.State.Given():
		b.report(CodeNotBoth, s.State.Place, "a state without a condition means nothing", "add when:, or take state: away")
	case alone && len(s.With) > 0:
		b.report(CodeNotBoth, first(s.With), "setups without a condition mean nothing", "add when:, or take with: away")
	}
	if s.When.Given() {
		one := conditionShape{Place: s.When.Place, When: s.When, State: s.State, With: s.With}
		out = append(out, b.condition(c, one))
	}
	for _, one := range s.All {
		out = append(out, b.condition(c, one))
	}
	return out
}

// shows builds what is heard, seen and read, and the complaints.
func (b *builder) shows(c *circuitNotes) {
	known := newRegister("test", " in the circuit", "shows")
	for _, s := range c.file.Shows {
		if b.refer(c.tests, s.Test) && b.add(known, s.Test, nameID) {
			c.out.Shows = append(c.out.Shows, b.show(c, s))
		}
	}
	for _, s := range c.file.Reads {
		if !b.refer(c.tests, s.Test) || !b.add(known, s.Test, nameID) {
			continue
		}
		t := c.system.Test(s.Test.Text)
		if t.Kind != Metered && t.Kind != "" {
			b.report(CodeNotBoth, s.Test.Place, fmt.Sprintf("%q is %s, and reads no figure", t.ID, t.Kind), "an observed test stands under shows:, one that is worked out nowhere")
		}
		r := Reads{Test: s.Test.Text, With: b.referAll(c.setups, s.With), Place: s.Test.Place}
		if b.refer(c.states, s.State) {
			r.State = s.State.Text
		}
		r.Value = b.figure(c, s.Value, c.asked, t.dim)
		c.out.Reads = append(c.out.Reads, r)
	}
}

// show builds what one observation shows. It must show something whatever the
// machine, and each of its choices on some machine.
func (b *builder) show(c *circuitNotes, s showShape) Show {
	t := c.system.Test(s.Test.Text)
	show := Show{Test: t.ID, Place: s.Test.Place}
	if t.Kind != Observed {
		if t.Kind != "" {
			b.report(CodeNotBoth, s.Test.Place, fmt.Sprintf("%q is %s, and shows no choice", t.ID, t.Kind), "a test that no points answer stands under reads:")
		}
		return show
	}
	var places []source.Place
	var always []bool
	shown, known := set{}, true
	for _, choice := range s.Choices {
		known = b.only(choice.Choice, fmt.Sprintf("a choice of %q", t.ID), t.Outcomes()) && known
		shown[choice.Choice.Text] = true
		one := ShownChoice{Choice: choice.Choice.Text, When: b.conditions(c, choice.whenShape)}
		show.Choices = append(show.Choices, one)
		places, always = append(places, choice.Choice.Place), append(always, choice.unconditional())
	}
	b.otherwise(places, always)
	if known {
		b.everyChoice(c, s.Test, t, shown)
	}
	return show
}

// everyChoice: each choice is shown by some machine, or called unmodelled.
func (b *builder) everyChoice(c *circuitNotes, at word, t *Test, shown set) {
	for _, choice := range t.Choices {
		what := t.ID + ": " + choice.Name
		switch {
		case !shown[choice.Name] && !c.leaves(what):
			b.report(CodeNeverShown, at.Place, fmt.Sprintf("no machine ever shows %q of %q", choice.Name, t.ID),
				fmt.Sprintf("add a line for it, or {what: %q, why: ...} to unmodelled:", what))
		case shown[choice.Name] && c.leaves(what):
			b.report(CodeNotBoth, at.Place, fmt.Sprintf("%q is shown, and stands in unmodelled", what), "take one away")
		}
	}
}

// leaves says whether the file calls that unmodelled.
func (c *circuitNotes) leaves(what string) bool {
	return slices.ContainsFunc(c.file.Unmodelled, func(s leftOutShape) bool { return s.What.Text == what })
}

func (s whenShape) unconditional() bool { return s.When.Place.Line == 0 && len(s.All) == 0 }

// otherwise: of lines of which the first that holds counts, the last holds
// always, and no other does.
func (b *builder) otherwise(places []source.Place, always []bool) {
	for i, place := range places {
		last := i == len(places)-1
		switch {
		case last && !always[i]:
			b.report(CodeOtherwise, place, "this is the last line, and it has a condition: a machine may fit none of them", "add a line without when:, for all other machines")
		case !last && always[i]:
			b.report(CodeOtherwise, place, "this line holds always, so those after it never count", "add when: to it, or put it last")
		}
	}
}

// complains builds the complaints.
func (b *builder) complains(c *circuitNotes) {
	known := newRegister("complaint", " in system "+c.system.ID, "complaints")
	for _, s := range c.system.Complaints {
		known.at[s.ID] = c.system.Place
	}
	var places []source.Place
	var always []bool
	for _, s := range c.file.Complaints {
		if b.refer(known, s.Complaint) {
			one := Complains{Complaint: s.Complaint.Text, When: b.conditions(c, s.whenShape)}
			for _, x := range one.When {
				b.stateless(c, x)
			}
			c.out.Complaints = append(c.out.Complaints, one)
		}
		places, always = append(places, s.Complaint.Place), append(always, s.unconditional())
	}
	b.otherwise(places, always)
}

// doings builds what work does, the complaints, and what is left out.
func (b *builder) doings(c *circuitNotes) {
	known := newRegister("work", " in the circuit", "work")
	for _, s := range c.file.Work {
		there := b.refer(c.work, s.Work) && b.add(known, s.Work, plainID)
		e := Effect{Work: s.Work.Text, Moves: b.moved(c, s.Move), Place: s.Work.Place}
		for _, change := range s.Set {
			if built, ok := b.change(c, change, c.names); ok {
				e.Set = append(e.Set, built)
			}
		}
		if there {
			c.out.Work = append(c.out.Work, e)
		}
	}
	b.complains(c)
	for _, s := range c.file.Unmodelled {
		c.out.Unmodelled = append(c.out.Unmodelled, Unmodelled{What: s.What.Text, Why: b.tell(s.Why), Place: s.What.Place})
	}
}
