package tree

import (
	"fmt"
	"slices"

	"benchlead/diag/formula"
)

const labelDot = "label."

// label compiles the label fields. A default may name any other field, as long
// as they don't go round; fields are put in an order in which each stands after
// what its default needs.
func (b *builder) label(n *systemNotes, all []labelShape) {
	n.names = formula.Names{
		Numbers: map[string]formula.Dimension{"bench.celsius": formula.Kelvin},
		Words:   map[string][]string{},
	}
	known := newRegister("label field", " in system "+n.system.ID, "label")
	var fresh []labelShape
	for _, s := range all {
		if b.add(known, s.Field, nameID) {
			fresh = append(fresh, s)
			b.nameField(n.names, s)
		}
	}
	var fields []LabelField
	for _, s := range fresh {
		if len(s.Options) > 0 {
			fields = append(fields, b.wordField(s))
			continue
		}
		fields = append(fields, b.numberField(n, s))
	}
	n.system.Label = b.inOrder(fields)
}

// nameField lets formulas mention a field.
func (b *builder) nameField(names formula.Names, s labelShape) {
	if !nameID.MatchString(s.Field.Text) {
		return // reported; no hint may lead to it
	}
	name := labelDot + s.Field.Text
	if len(s.Options) > 0 {
		names.Words[name] = texts(s.Options)
		return
	}
	names.Numbers[name] = b.unit(s.Unit).dim
}

// unit looks a unit up, and reports one that isn't known.
func (b *builder) unit(w word) unit {
	u, ok := unitOf(w.Text)
	if !ok {
		b.only(w, "a unit", unitNames)
		return unit{per: 1}
	}
	return u
}

func (b *builder) wordField(s labelShape) LabelField {
	f := LabelField{ID: s.Field.Text, Ask: b.title(s.Ask), Tell: b.tell(s.Tell), Options: texts(s.Options), Word: s.Default.Text, Place: s.Field.Place}
	if s.Default.Given() && !slices.Contains(f.Options, f.Word) {
		b.only(word{Text: s.Default.Text, Place: s.Default.Place}, "one of the options", f.Options)
	}
	if s.Least.Given || s.Most.Given || s.Unit.Given() {
		b.report(CodeNotBoth, s.Field.Place, fmt.Sprintf("%q is chosen from words, so it has no unit, least or most", f.ID), "take them away, or take options: away")
	}
	return f
}

func (b *builder) numberField(n *systemNotes, s labelShape) LabelField {
	u := b.unit(s.Unit)
	f := LabelField{
		ID: s.Field.Text, Ask: b.title(s.Ask), Tell: b.tell(s.Tell), Unit: s.Unit.Text, PerUnit: u.per, Place: s.Field.Place,
		Least: s.Least.Value * u.per, Most: s.Most.Value * u.per,
	}
	f.From, f.To = s.From.Value*u.per, s.To.Value*u.per
	f.Default = b.compile(s.Default, n.names, u.dim)
	switch {
	case !s.Least.Given || !s.Most.Given:
		b.report(CodeMissing, s.Field.Place, fmt.Sprintf("the label field %q lacks its least and most", f.ID), "add least: and most:, the limits of what a label can say")
	case s.Least.Value >= s.Most.Value:
		b.report(CodeBadNumber, s.Least.Place, fmt.Sprintf("least (%g) must be below most (%g)", s.Least.Value, s.Most.Value), "swap them")
	case s.From.Given != s.To.Given:
		b.report(CodeMissing, s.Field.Place, fmt.Sprintf("the label field %q has only one end of what is usual", f.ID), "give both usual from: and usual to:, or neither")
	case s.From.Given && (s.From.Value >= s.To.Value || s.From.Value < s.Least.Value || s.To.Value > s.Most.Value):
		b.report(CodeBadNumber, s.From.Place, fmt.Sprintf("usual from (%g) and usual to (%g) must rise, and lie between least (%g) and most (%g)", s.From.Value, s.To.Value, s.Least.Value, s.Most.Value), "correct them")
	}
	return f
}

// inOrder puts each field after those that its default needs.
func (b *builder) inOrder(fields []LabelField) []LabelField {
	var out []LabelField
	ready := map[string]bool{"bench.celsius": true}
	for len(out) < len(fields) {
		before := len(out)
		for _, f := range fields {
			if !ready[labelDot+f.ID] && isReady(f.Default, ready) {
				ready[labelDot+f.ID] = true
				out = append(out, f)
			}
		}
		if len(out) == before {
			return append(out, b.roundDefaults(fields, ready)...)
		}
	}
	return out
}

func isReady(f *formula.Formula, ready map[string]bool) bool {
	if f == nil {
		return true
	}
	return !slices.ContainsFunc(f.Needs(), func(name string) bool { return !ready[name] })
}

func (b *builder) roundDefaults(fields []LabelField, ready map[string]bool) []LabelField {
	var round []LabelField
	for _, f := range fields {
		if !ready[labelDot+f.ID] {
			round = append(round, f)
		}
	}
	// From any of them, what it waits for leads into the circle.
	path, at := []string{}, round[0]
	for !slices.Contains(path, at.ID) {
		path = append(path, at.ID)
		for _, f := range round {
			if slices.Contains(at.Default.Needs(), labelDot+f.ID) {
				at = f
				break
			}
		}
	}
	path = append(path[slices.Index(path, at.ID):], at.ID)
	b.report(CodeRound, at.Default.Origin().Start(), fmt.Sprintf("the default of %q needs itself: %s", at.ID, arrows(path)), "give one of them a number")
	return round
}

// compile compiles a formula that must give a quantity of that kind, or a plain
// number, which then is in the display unit. nil when there is none, or when it
// doesn't compile.
func (b *builder) compile(e expression, names formula.Names, want formula.Dimension) *formula.Formula {
	if !e.Given() {
		return nil
	}
	f, issues := formula.Compile(e.Text, e.Origin, names, want)
	b.issues = append(b.issues, issues...)
	if len(issues) > 0 {
		return nil
	}
	return f
}
