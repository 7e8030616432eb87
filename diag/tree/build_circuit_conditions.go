package tree

import (
	"fmt"

	"benchlead/diag/source"
)

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

func (b *builder) condition(c *circuitNotes, s conditionShape) Condition {
	out := Condition{When: b.yesNo(s.When, c.asked), With: b.referAll(c.setups, s.With), Place: s.Place}
	if b.refer(c.states, s.State) {
		out.State = s.State.Text
	}
	return out
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
