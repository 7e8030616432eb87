package tree

import (
	"maps"

	"benchlead/diag/formula"
)

// breakages builds the faults of a circuit.
func (b *builder) breakages(c *circuitNotes) {
	known := newRegister("fault", " in the circuit", "faults")
	for _, s := range c.file.Faults {
		if !b.refer(c.faults, s.Fault) || !b.add(known, s.Fault, faultID) {
			continue
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
			f.Holds = &h
		}
		c.out.Faults = append(c.out.Faults, f)
	}
}

func (b *builder) way(c *circuitNotes, s wayShape) Way {
	w := Way{Name: s.Way.Text, Share: b.amount(s.Share, 0, 1), Place: s.Way.Place}
	names := c.names
	if s.Severity != nil {
		w.From, w.To, w.ByRatio = s.Severity.From.Value, s.Severity.To.Value, s.Severity.By.Text == "ratio"
		names = formula.Names{Numbers: maps.Clone(names.Numbers), Words: names.Words, Fixed: names.Fixed}
		names.Numbers["severity"] = formula.Plain
	}
	for _, change := range s.Set {
		if built, ok := b.change(c, change, names); ok {
			w.Set = append(w.Set, built)
		}
	}
	return w
}

func (b *builder) condition(c *circuitNotes, s conditionShape) Condition {
	out := Condition{When: b.compileCondition(s.When, c.asked), With: b.referAll(c.setups, s.With), Place: s.Place}
	if b.refer(c.states, s.State) {
		out.State = s.State.Text
	}
	return out
}

// conditions are those of one line; none when it always holds.
func (b *builder) conditions(c *circuitNotes, s whenShape) []Condition {
	var out []Condition
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
		if !b.refer(c.tests, s.Test) || !b.add(known, s.Test, nameID) {
			continue
		}
		show := Show{Test: s.Test.Text, Place: s.Test.Place}
		for _, choice := range s.Choices {
			show.Choices = append(show.Choices, ShownChoice{Choice: choice.Choice.Text, When: b.conditions(c, choice.whenShape)})
		}
		c.out.Shows = append(c.out.Shows, show)
	}
	for _, s := range c.file.Reads {
		if !b.refer(c.tests, s.Test) || !b.add(known, s.Test, nameID) {
			continue
		}
		r := Reads{Test: s.Test.Text, With: b.referAll(c.setups, s.With), Place: s.Test.Place}
		if b.refer(c.states, s.State) {
			r.State = s.State.Text
		}
		r.Value = b.compileBase(s.Value, c.asked, c.system.Test(s.Test.Text).dim)
		c.out.Reads = append(c.out.Reads, r)
	}
}

// doings builds what work does, the complaints, and what is left out.
func (b *builder) doings(c *circuitNotes) {
	known := newRegister("work", " in the circuit", "work")
	for _, s := range c.file.Work {
		if !b.refer(c.work, s.Work) || !b.add(known, s.Work, plainID) {
			continue
		}
		e := Effect{Work: s.Work.Text, Moves: b.moved(c, s.Move), Place: s.Work.Place}
		for _, change := range s.Set {
			if built, ok := b.change(c, change, c.names); ok {
				e.Set = append(e.Set, built)
			}
		}
		c.out.Work = append(c.out.Work, e)
	}
	for _, s := range c.file.Complaints {
		c.out.Complaints = append(c.out.Complaints, Complains{Complaint: s.Complaint.Text, When: b.conditions(c, s.whenShape)})
	}
	for _, s := range c.file.Unmodelled {
		c.out.Unmodelled = append(c.out.Unmodelled, Unmodelled{What: s.What.Text, Why: b.tell(s.Why), Place: s.What.Place})
	}
}
