package tree

import (
	"fmt"
	"slices"

	"benchlead/diag/source"
)

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
