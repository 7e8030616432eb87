package tree

import (
	"fmt"

	"benchlead/diag/source"
)

// shows builds what is heard, seen and read.
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
		r.Value = b.figure(s.Value, c.asked, t.dim)
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
		entry, left := c.omitted(what)
		switch {
		case !shown[choice.Name] && !left:
			b.report(CodeNeverShown, at.Place, fmt.Sprintf("no machine ever shows %q of %q", choice.Name, t.ID),
				fmt.Sprintf("add a line for it, or {what: %q, why: ...} to unmodelled:", what))
		case shown[choice.Name] && left:
			b.report(CodeNotBoth, entry, fmt.Sprintf("%q is shown, and stands in unmodelled", what), "take one away")
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
