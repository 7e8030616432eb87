package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/source"
)

// tests builds the tests of a system. Formulas of worked-out tests may name any
// other test that yields a number.
func (b *builder) tests(n *systemNotes, all []testShape) {
	names := formula.Names{Numbers: map[string]formula.Dimension{}, Words: n.names.Words}
	for name, dim := range n.names.Numbers {
		names.Numbers[name] = dim
	}
	for _, s := range all {
		if nameID.MatchString(s.Test.Text) && (s.Measure.Given() || s.From.Given()) {
			u, _ := unitOf(testUnit(s))
			names.Numbers[s.Test.Text] = u.dim
		}
	}
	for _, s := range all {
		n.kindless = n.kindless || len(s.kinds()) != 1
	}
	for _, s := range all {
		id := s.Test.Text
		if !s.Test.Given() || n.system.tests[id] != nil {
			continue
		}
		t := b.test(n, s, names)
		n.system.Tests, n.system.tests[id] = append(n.system.Tests, t), t
	}
	b.roundTests(n)
}

// testUnit is the display unit, by default the one that the meter reads in.
func testUnit(s testShape) string {
	own := measure.Function(s.Measure.Text).Base()
	if u, ok := unitOf(s.In.Text); ok && s.In.Given() && (own == "" || u.base == own) {
		return s.In.Text
	}
	return own
}

func (b *builder) test(n *systemNotes, s testShape, names formula.Names) *Test {
	t := &Test{
		ID: s.Test.Text, Title: b.title(s.Title), Unit: testUnit(s), Scale: s.Scale.Text,
		Tell: b.tell(s.Tell), Why: b.tell(s.Why), Mistake: b.tell(s.Mistake), Alone: b.tell(s.Alone),
		People: b.whole(s.People, 1, 1), Minutes: b.amount(s.Minutes, 0, 0),
		Cautions: b.referAll(b.cautions, s.Cautions), With: b.referAll(n.setups, s.With), Place: s.Test.Place,
	}
	u, _ := unitOf(t.Unit)
	t.PerUnit, t.dim = u.per, u.dim
	if b.refer(n.states, s.State) {
		t.State = s.State.Text
	}
	if s.After.Given() && b.refer(n.work, s.After) {
		t.After = s.After.Text
	}
	kinds := b.kindOf(s)
	if len(kinds) != 1 {
		return t
	}
	if !s.From.Given() {
		t.Hold = b.hold(s.Hold, n.allTold(t, s)...)
	}
	switch kinds[0] {
	case "measure":
		b.metered(n, t, s)
	case "see":
		b.observed(n, t, s)
	case "from":
		b.worked(n, t, s, names)
	}
	b.allowed(s, t.Kind)
	return t
}

// kinds are the keys by which the test is answered; there must be one.
func (s testShape) kinds() []string {
	var kinds []string
	if s.Measure.Given() {
		kinds = append(kinds, "measure")
	}
	if s.See.Given() {
		kinds = append(kinds, "see")
	}
	if s.From.Given() {
		kinds = append(kinds, "from")
	}
	return kinds
}

// kindOf is kinds, and reports none or several.
func (b *builder) kindOf(s testShape) []string {
	kinds := s.kinds()
	switch {
	case len(kinds) == 0 && s.From.Place.Line == 0:
		b.report(CodeTestKind, s.Test.Place, fmt.Sprintf("nothing says how %q is answered", s.Test.Text), "add measure: (a meter reading), see: (something noticed) or from: (worked out)")
	case len(kinds) > 1:
		b.report(CodeTestKind, s.Test.Place, fmt.Sprintf("%q is answered in two ways: %s", s.Test.Text, strings.Join(kinds, " and ")), "keep one of them")
	}
	return kinds
}

func (b *builder) metered(n *systemNotes, t *Test, s testShape) {
	t.Kind = Metered
	if !b.only(s.Measure, "something a meter measures", functions()) {
		t.Bands = b.bands(n, t, s)
		return
	}
	t.Function = measure.Function(s.Measure.Text)
	own := measure.Units(t.Function)
	if b.unit(s.In).base != t.Function.Base() && s.In.Given() && slices.Contains(unitNames, s.In.Text) {
		b.report(CodeWrongUnit, s.In.Place, fmt.Sprintf("%s is not read in %s", t.Function, s.In.Text), "leave in: out, or use one of: "+strings.Join(own, ", "))
	}
	if t.Function == measure.DCAmps && !b.safe.has(redJack) && !b.quiet {
		b.report(CodeMissing, s.Measure.Place, fmt.Sprintf("a reading in amps needs the make-safe item %q, so that the red lead is asked back", redJack),
			"add it under safe:, with the settings volts and amps")
	}
	if state := n.system.State(t.State); t.Function.Passive() && state.Live() {
		b.report(CodeLiveOhms, s.Measure.Place, fmt.Sprintf("%s must never be read while current can flow, and in the state %q in system %s it can: that spoils the meter", t.Function, state.ID, n.system.ID),
			"ask it in a state that is neither powered nor moving; with power on read dc volts between the same points")
	}
	b.leads(n, t, s)
	t.Healthy, t.Possible = b.span(n, t, s.Healthy), b.span(n, t, s.Possible)
	t.Bands = b.bands(n, t, s)
}

func (b *builder) leads(n *systemNotes, t *Test, s testShape) {
	switch {
	case leadless(t.Function):
		if s.Leads != nil {
			b.report(CodeLeads, s.Leads.Place, fmt.Sprintf("%s isn't read between two points", t.Function), "take leads: away")
		}
		return
	case s.Leads == nil:
		b.report(CodeLeads, s.Test.Place, fmt.Sprintf("nothing says where the leads of %q go", t.ID), "add leads: {red: POINT, black: POINT}")
		return
	}
	if b.refer(n.points, s.Leads.Red) {
		t.Red = s.Leads.Red.Text
	}
	clamp := t.Function == measure.ClampAmps
	switch {
	case clamp && s.Leads.Black.Given():
		b.report(CodeLeads, s.Leads.Black.Place, "a clamp goes around one conductor", "write only red: the point whose wire it goes around")
	case !clamp && !s.Leads.Black.Given() && s.Leads.Red.Given():
		b.report(CodeLeads, s.Leads.Red.Place, "the black lead goes nowhere", "add black: POINT")
	case b.refer(n.points, s.Leads.Black):
		t.Black = s.Leads.Black.Text
	}
	if t.Red != "" && t.Red == t.Black {
		b.report(CodeLeads, s.Leads.Black.Place, "both leads are on one point", "name two points")
	}
}

func (b *builder) observed(n *systemNotes, t *Test, s testShape) {
	t.Kind, t.Unit, t.PerUnit = Observed, "", 0
	t.Tell = b.tell(s.See)
	t.Choices = b.choices(n, s.Choices, "choice")
	if len(t.Choices) < 2 && len(s.Choices) < 2 {
		b.report(CodeMissing, s.Test.Place, fmt.Sprintf("%q needs at least two choices", t.ID), "add choices: [..., ...]")
	}
}

func (b *builder) worked(n *systemNotes, t *Test, s testShape, names formula.Names) {
	t.Kind = Worked
	b.unit(s.In)
	others := formula.Names{Numbers: map[string]formula.Dimension{}, Words: names.Words}
	for name, dim := range names.Numbers {
		others.Numbers[name] = dim
	}
	delete(others.Numbers, t.ID)
	if !n.kindless {
		t.From = b.compile(s.From, others, t.dim)
	}
	if t.From != nil && len(t.Inputs()) == 0 {
		b.report(CodeNoInput, s.From.Place, fmt.Sprintf("%q is worked out from no test", t.ID), "name tests in from:")
	}
	t.Healthy, t.Possible = b.span(n, t, s.Healthy), b.span(n, t, s.Possible)
	t.Bands = b.bands(n, t, s)
}

// allowed reports keys that have no meaning for that kind of test.
func (b *builder) allowed(s testShape, kind TestKind) {
	type key struct {
		name  string
		place source.Place // without a line when the key isn't there
		kinds []TestKind
	}
	numbers, asked := []TestKind{Metered, Worked}, []TestKind{Metered, Observed}
	for _, k := range []key{
		{"leads", s.leads(), []TestKind{Metered}},
		{"scale", s.Scale.Place, []TestKind{Metered}},
		{"state", s.State.Place, asked},
		{"with", first(s.With), asked},
		{"bands", s.bands(), numbers},
		{"choices", s.choices(), []TestKind{Observed}},
		{"healthy", s.Healthy.place(), numbers},
		{"possible", s.Possible.place(), numbers},
		{"in", s.In.Place, numbers},
		{"hold", s.Hold.place(), asked},
	} {
		if k.place.Line > 0 && !slices.Contains(k.kinds, kind) {
			b.report(CodeNotBoth, k.place, fmt.Sprintf("%q is %s, so %q means nothing in it", s.Test.Text, kind, k.name), "take "+k.name+": away")
		}
	}
	if s.Hold != nil && s.Measure.Text == string(measure.Seconds) {
		b.report(CodeNotBoth, s.Hold.Place, fmt.Sprintf("%q is timed with the stop-watch, so %q means nothing in it", s.Test.Text, "hold"), "take hold: away")
	}
	if kind != Worked && !s.State.Given() {
		b.report(CodeMissing, s.Test.Place, fmt.Sprintf("nothing says in which state of the machine %q is asked", s.Test.Text), "add state: STATE")
	}
	if s.People.Given && s.People.Value > 1 && !s.Alone.Given() {
		b.report(CodeAlone, s.People.Place, fmt.Sprintf("%q takes %g people and nothing says how one can do it", s.Test.Text, s.People.Value), "add alone: ...")
	}
}
