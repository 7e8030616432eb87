package casefile

import (
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/shape"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// The codes of what Load reports beside those of package shape.
const (
	CodeUnknown source.Code = "case-unknown-name"
	CodeValue   source.Code = "case-bad-value"
)

// Load reads a case against a library. Every issue is reported, with its place;
// there is no case then. A reading that is well written but can't be used is no
// issue: it is set aside.
func Load(file source.File, lib *tree.Library) (*Case, source.Issues) {
	node, issues := form.Parse(&file)
	if len(issues) > 0 {
		return nil, issues
	}
	l := &loader{Reader: form.Reader(&file), lib: lib}
	l.Read(node, &l.shape, "a case")
	if len(l.Issues) > 0 {
		return nil, l.Issues.Sorted()
	}
	c := l.build()
	if len(l.Issues) > 0 {
		return nil, l.Issues.Sorted()
	}
	return c, nil
}

// amount is what a machine may be worth.
var amount = regexp.MustCompile(`^[0-9]{1,7}(\.[0-9]{1,4})?$`)

type loader struct {
	*shape.Reader
	lib   *tree.Library
	shape caseShape
	sys   *tree.System
}

func (l *loader) build() *Case {
	s := &l.shape
	l.sys = l.lib.Systems[s.System.Text]
	if l.sys == nil {
		l.unknown(s.System, "system", slices.Sorted(maps.Keys(l.lib.Systems)))
		return nil
	}
	in := l.intake()
	c := &Case{System: l.sys, Complaint: l.shape.Complaint.Text}
	c.add(job.Event{Kind: job.KindIntake, Intake: &in})
	values, _ := walk.Values(l.sys, in)
	for _, r := range s.Readings {
		l.reading(c, r, in.Meter, values)
	}
	for _, seen := range s.Seen {
		l.seen(c, seen)
	}
	if s.Expect != nil {
		c.Expect = l.expect(s.Expect)
	}
	return c
}

func (l *loader) unknown(w shape.Word, what string, known []string) {
	const most = 12
	hint := "one of: " + strings.Join(known[:min(len(known), most)], ", ")
	switch {
	case len(known) == 0:
		hint = "this system has none"
	case len(known) > most:
		hint += fmt.Sprintf(" and %d more", len(known)-most)
	}
	if near := source.Nearest(w.Text, known); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	l.Report(CodeUnknown, w.Place, fmt.Sprintf("there is no %s %q", what, w.Text), hint)
}

func (l *loader) intake() job.Intake {
	s := &l.shape
	in := job.Intake{
		System: s.System.Text, Words: s.Words.Text, Machine: s.Machine.Text, Celsius: 20, Digest: l.lib.Digest,
		Label: map[string]float64{}, LabelText: map[string]string{}, Worth: s.Worth.Text,
	}
	in.Complaint = l.complaint(s.Complaint)
	if s.Worth.Given() && !amount.MatchString(s.Worth.Text) {
		l.Report(CodeValue, s.Worth.Place, fmt.Sprintf("%q is not an amount", s.Worth.Text), "write digits such as 450.00, without a currency sign")
	}
	if s.Bench != nil {
		in.Celsius = s.Bench.Celsius.Value
		if in.Celsius < -40 || in.Celsius > 60 {
			l.Report(CodeValue, s.Bench.Celsius.Place, "no bench is that warm or cold", "write the temperature in degrees C, -40 to 60")
		}
	}
	for _, pair := range s.Label {
		l.label(&in, pair)
	}
	for _, h := range s.History {
		if !slices.ContainsFunc(l.sys.History, func(c tree.Choice) bool { return c.Name == h.Text }) {
			l.unknown(h, "line of history", choiceNames(l.sys.History))
		}
		in.History = append(in.History, h.Text)
	}
	in.Meter = l.meter(s.Meter)
	return in
}

func choiceNames(list []tree.Choice) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.Name)
	}
	return out
}

// complaint may be left out: then the first of the system is walked.
func (l *loader) complaint(w shape.Word) string {
	var known []string
	for _, c := range l.sys.Complaints {
		known = append(known, c.ID)
	}
	if w.Text == "" && len(known) > 0 {
		return known[0]
	}
	if !slices.Contains(known, w.Text) {
		l.unknown(w, "complaint of this system", known)
	}
	return w.Text
}

func (l *loader) label(in *job.Intake, pair shape.Pair) {
	i := slices.IndexFunc(l.sys.Label, func(f tree.LabelField) bool { return f.ID == pair.Key.Text })
	if i < 0 {
		var known []string
		for _, f := range l.sys.Label {
			known = append(known, f.ID)
		}
		l.unknown(pair.Key, "label field of this system", known)
		return
	}
	field := l.sys.Label[i]
	if len(field.Options) > 0 {
		if !slices.Contains(field.Options, pair.Value.Text) {
			l.unknown(pair.Value, field.ID, field.Options)
		}
		in.LabelText[field.ID] = pair.Value.Text
		return
	}
	v, err := strconv.ParseFloat(pair.Value.Text, 64)
	if err != nil || !(v >= field.Least && v <= field.Most) {
		l.Report(CodeValue, pair.Value.Place, fmt.Sprintf("%q can't be %s here", pair.Value.Text, field.ID),
			fmt.Sprintf("write a number from %g to %g", field.Least, field.Most))
		return
	}
	in.Label[field.ID] = v
}

// meter is the one named, the one written out, or the first of the library.
func (l *loader) meter(m *meterShape) measure.Meter {
	ids := l.lib.MeterIDs()
	if m == nil {
		if len(ids) == 0 {
			return measure.Meter{}
		}
		return l.lib.Instruments(ids[0])
	}
	if len(m.Scales) == 0 {
		if l.lib.Meters[m.ID.Text] != nil {
			return l.lib.Instruments(m.ID.Text)
		}
		if !m.ID.Given() {
			l.Report(CodeUnknown, m.Place, "the meter has neither a name nor scales", "write meter: "+strings.Join(ids, " or "))
			return measure.Meter{}
		}
		l.unknown(m.ID, "meter", ids)
		return measure.Meter{}
	}
	out := measure.Meter{ID: orAsk(m.ID.Text, "own"), Title: orAsk(m.Title.Text, "The case's own meter"), TrueRMS: m.TrueRMS.Value}
	for _, s := range m.Scales {
		f := measure.Function(s.Measure.Text)
		if !f.Known() {
			l.unknown(s.Measure, "function of a meter", functionNames())
		}
		if s.Full.Value <= 0 || s.Step.Value <= 0 || s.Percent.Value < 0 || s.Counts.Value < 0 {
			l.Report(CodeValue, s.Full.Place, "a scale has a full value and a step above nothing, and no negative accuracy", "copy it from the meter's own table")
		}
		out.Scales = append(out.Scales, measure.Scale{
			Function: f, FullScale: s.Full.Value, Resolution: s.Step.Value,
			Percent: s.Percent.Value, Counts: s.Counts.Value, InputOhms: s.Input.Value,
		})
	}
	return out
}

func functionNames() []string {
	var out []string
	for _, f := range measure.Functions() {
		out = append(out, string(f))
	}
	return out
}

func (l *loader) reading(c *Case, r readingShape, meter measure.Meter, values formula.Values) {
	l.known(r.Red, "point of this system", pointNames(l.sys))
	l.known(r.Black, "point of this system", pointNames(l.sys))
	l.state(r.State)
	l.known(r.Function, "function of a meter", functionNames())
	e := entry{
		function: measure.Function(r.Function.Text), red: r.Red.Text, black: r.Black.Text,
		state: r.State.Text, value: r.Value.Text,
		asked: r.Place, read: r.Value.Place,
	}
	for _, w := range r.With {
		l.known(w, "setup of this system", setupNames(l.sys))
		e.with = append(e.with, w.Text)
	}
	if r.Test.Given() {
		test := l.named(r.Test)
		if test == nil {
			return
		}
		e = e.filled(test)
	}
	if r.Range.Given() {
		e.value += " @" + r.Range.Text
	}
	if l.written(e, r.Value) {
		c.take(e, meter, values)
	}
}

// named is the test that a reading says it is of; nil, reported, when no meter reads one
// of that name.
func (l *loader) named(w shape.Word) *tree.Test {
	if test := l.sys.Test(w.Text); test != nil && test.Kind == tree.Metered {
		return test
	}
	var known []string
	for _, t := range l.sys.Tests {
		if t.Kind == tree.Metered {
			known = append(known, t.ID)
		}
	}
	l.unknown(w, "reading of this system", known)
	return nil
}

// written says whether the value is one that this function of a meter can show;
// a value that can't be read at all is a slip of the pen.
func (l *loader) written(e entry, value shape.Word) bool {
	if e.function == "" || !e.function.Known() {
		return true
	}
	_, err := measure.Parse(e.value, e.function)
	var slip *measure.ParseError
	switch {
	case errors.As(err, &slip):
		l.Report(CodeValue, value.Place, slip.Message, slip.Hint)
	case err != nil:
		l.Report(CodeValue, value.Place, err.Error(), "")
	}
	return err == nil
}

// known reports a name that is given and not in the list.
func (l *loader) known(w shape.Word, what string, names []string) {
	if w.Given() && !slices.Contains(names, w.Text) {
		l.unknown(w, what, names)
	}
}

func pointNames(sys *tree.System) []string {
	var out []string
	for _, p := range sys.Points {
		out = append(out, p.ID)
	}
	return out
}

func stateNames(sys *tree.System) []string {
	var out []string
	for _, s := range sys.States {
		out = append(out, s.ID)
	}
	return out
}

func setupNames(sys *tree.System) []string {
	var out []string
	for _, s := range sys.Setups {
		out = append(out, s.ID)
	}
	return out
}

func testNames(sys *tree.System) []string {
	var out []string
	for _, t := range sys.Tests {
		out = append(out, t.ID)
	}
	return out
}

func (l *loader) seen(c *Case, s seenShape) {
	test := l.sys.Test(s.Test.Text)
	switch {
	case test == nil || test.Kind != tree.Observed:
		var known []string
		for _, t := range l.sys.Tests {
			if t.Kind == tree.Observed {
				known = append(known, t.ID)
			}
		}
		l.unknown(s.Test, "observation of this system", known)
	case !hasChoice(test, s.Choice.Text):
		l.unknown(s.Choice, "choice of "+test.ID, choiceNames(test.Choices))
	default:
		c.observe(test.ID, s.Choice.Text)
	}
}

func (l *loader) expect(e *expectShape) *Expect {
	var faults []string
	for _, f := range l.sys.Faults {
		faults = append(faults, f.ID)
	}
	names := func(list []shape.Word, what string, known []string) []string {
		out := []string{}
		for _, w := range list {
			l.known(w, what, known)
			out = append(out, w.Text)
		}
		return out
	}
	return &Expect{
		Found: names(e.Found, "fault of this system", faults), Suspects: names(e.Suspects, "fault of this system", faults),
		Cleared: names(e.Cleared, "fault of this system", faults), Good: names(e.Good, "fault of this system", faults),
		Asks: names(e.Asks, "test of this system", testNames(l.sys)), Why: e.Why.Text,
	}
}
