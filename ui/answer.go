package ui

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// answer records an answer to the current test, or to the one it names.
func (s *Session) answer(ctx context.Context, a Action) (Reply, error) {
	p := s.Position()
	if strings.EqualFold(a.Text, "back") && a.Test == "" && !s.isChoice(a.Text) {
		return Reply{}, fmt.Errorf("\"%s\" is the word: it takes the last answer back. Nothing was recorded", Undo)
	}
	if a.Test != "" {
		// A reading taken early or again: it was taken already, so only a
		// danger that is still open may hold it up.
		return s.answerTest(ctx, s.pos.System.Test(a.Test), a.Text)
	}
	switch p.Stage {
	case walk.AtTest, walk.AtCheck, walk.AtHandBack:
		return s.answerTest(ctx, p.Test, a.Text)
	case walk.AtDanger, walk.AtSafe:
		return Reply{}, fmt.Errorf("first confirm what is asked: type \"yes\". Nothing was recorded")
	case walk.AtWork:
		return Reply{}, fmt.Errorf("this step is work, not a reading: type \"done\" once it is done, or \"pass\"")
	case walk.AtRepair, walk.AtService:
		if isDigits(a.Text) {
			return s.tick(ctx, a.Text)
		}
		return Reply{}, fmt.Errorf("this is a list to be ticked, not a reading: type the number of what is done; \"help\" lists the words")
	case walk.AtEstimate:
		return Reply{}, fmt.Errorf("the owner has the word: type \"approve\" with an amount and who, \"declined\" and who, or \"pass\" and why")
	case walk.AtTerms:
		return s.agree(ctx, p, a.Text)
	case walk.AtVerdict:
		return Reply{}, fmt.Errorf("type the number of a way, as \"choose 1\", or \"close\"; \"help\" lists the words")
	}
	return Reply{}, fmt.Errorf("%q answers nothing here; \"help\" lists the words", source.CleanLine(a.Text))
}

// isChoice says whether a text is what the test that is asked may show.
func (s *Session) isChoice(text string) bool {
	p := s.Position()
	if !Asked(p.Stage) || p.Test == nil || p.Test.Kind != tree.Observed {
		return false
	}
	_, err := pick(p.Test.Choices, text)
	return err == nil
}

func (s *Session) answerTest(ctx context.Context, test *tree.Test, text string) (Reply, error) {
	if named := s.pos.System.Test(text); named != nil {
		if _, err := pick(test.Choices, text); err != nil {
			return Reply{}, fmt.Errorf("%s has no value behind it; nothing was recorded", named.ID)
		}
	}
	switch test.Kind {
	case tree.Observed:
		return s.observe(ctx, test, text)
	case tree.Worked:
		return Reply{}, fmt.Errorf("%s is worked out from other readings; it can't be typed in", test.Title)
	}
	reading, err := measure.Parse(text, test.Function)
	if err != nil {
		return Reply{}, err
	}
	if reading, err = inTestUnit(test, reading, text); err != nil {
		return Reply{}, err
	}
	shows := s.readable(reading)
	d := s.doubts(test, reading)
	if shows != nil {
		if d == nil || d.meant == nil {
			return Reply{}, shows
		}
		d.cantShow = true
	}
	if d == nil {
		d = slipped(test, reading, text)
	}
	if d != nil {
		s.asked = test.ID
		s.pending = &pending{test: test.ID, reading: reading, doubt: *d}
		return Reply{Said: []string{d.ask()}}, nil
	}
	return s.recordRead(ctx, test, reading, false)
}

// readable says why this meter could not have shown that. A display that
// flickers is no number, so every meter can show it.
func (s *Session) readable(r measure.Reading) error {
	switch {
	case r.Kind == measure.Flicker:
		return nil
	case r.Kind == measure.OverRange && !walk.Endless(r.Function):
		pass := ", or \"pass\""
		if t := s.Position().Test; t != nil && s.mustAnswer(t) {
			pass = ""
		}
		return fmt.Errorf("over range on %s only says that the range is too low or a lead is off: choose a higher range and read again%s", r.Function, pass)
	}
	_, err := s.facts.Intake.Meter.Estimate(r, s.facts.Intake.Celsius)
	return err
}

// inTestUnit takes a bare number in the unit that the step shows: 180 for a
// test shown in millivolts is 180 mV.
func inTestUnit(test *tree.Test, r measure.Reading, text string) (measure.Reading, error) {
	if test.PerUnit == 1 || test.PerUnit == 0 || r.Kind == measure.OverRange || r.Kind == measure.Flicker {
		return r, nil
	}
	if strings.ContainsFunc(text, isLetter) {
		return r, nil
	}
	number, scale, on := strings.Cut(text, "@")
	if v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64); err == nil && isAmps(test.Function) && test.PerUnit < 1 && v != 0 && math.Abs(v) < 1 {
		// A meter on its 10 A range shows amps where the test speaks of milliamps.
		n := strings.TrimSpace(number)
		return r, fmt.Errorf("write the unit behind it: %s A, or %s %s", n, n, test.Unit)
	}
	if n := strings.TrimSpace(number); test.Unit == "kohm" && strings.Trim(n, "0.,+-") != "" {
		// A meter that ranges by itself shows ohms where the test speaks of kilohms.
		return r, fmt.Errorf("write the unit behind it: %s ohm, or %s %s", n, n, test.Unit)
	}
	text = strings.TrimSpace(number) + " " + test.Unit
	if on {
		text += " @" + scale
	}
	return measure.Parse(text, test.Function)
}

func isAmps(f measure.Function) bool { return f == measure.DCAmps || f == measure.ClampAmps }

func isLetter(r rune) bool { return r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' }

func (s *Session) recordRead(ctx context.Context, test *tree.Test, r measure.Reading, sure bool) (Reply, error) {
	s.asked = ""
	before := foundIDs(s.pos.Verdict)
	err := s.record(ctx, job.Event{Kind: job.KindRead, Read: &job.Read{Test: test.ID, Reading: r, Sure: sure}})
	if err != nil {
		return Reply{}, err
	}
	return Reply{Said: append([]string{s.heard(test)}, s.news(before)...)}, nil
}

// news says which faults an answer has just shown, and which it no longer does.
func (s *Session) news(before []string) []string {
	var out []string
	now := foundIDs(s.pos.Verdict)
	for _, id := range now {
		if slices.Contains(before, id) {
			continue
		}
		if tried := s.tried(id); tried != "" {
			out = append(out, "Found again: "+s.faultTitle(id)+". Tried already: "+tried+".")
			continue
		}
		out = append(out, "Found: "+s.faultTitle(id)+".")
	}
	for _, id := range before {
		if !slices.Contains(now, id) {
			out = append(out, "No longer shown: "+s.faultTitle(id)+".")
		}
	}
	return out
}

// observe records a choice, given by number, name or title.
func (s *Session) observe(ctx context.Context, test *tree.Test, text string) (Reply, error) {
	choice, err := pick(test.Choices, text)
	if err != nil {
		return Reply{}, err
	}
	if err := s.tooShort(test, text); err != nil {
		return Reply{}, err
	}
	s.asked, s.pending = "", nil
	before := foundIDs(s.pos.Verdict)
	err = s.record(ctx, job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test.ID, Choice: choice, Text: text}})
	if err != nil {
		return Reply{}, err
	}
	return Reply{Said: append([]string{s.heard(test)}, s.news(before)...)}, nil
}

// tooShort refuses a letter or two as what a safety function shows: a slip of the
// finger must not prove one.
func (s *Session) tooShort(test *tree.Test, text string) error {
	text = strings.TrimSpace(text)
	whole := func(c tree.Choice) bool {
		return strings.EqualFold(text, c.Name) || strings.EqualFold(text, ChoiceTitle(c))
	}
	if !slices.Contains(s.pos.System.HandBack, test.ID) || isDigits(text) || len([]rune(text)) > 2 || slices.ContainsFunc(test.Choices, whole) {
		return nil
	}
	return fmt.Errorf("this is a safety function: type the number of what you see, or the word in full. Nothing was recorded")
}

// pick finds the choice that a person typed: its number, its whole name or
// title, or the beginning of just one of them.
func pick(choices []tree.Choice, text string) (string, error) {
	text = strings.ToLower(strings.TrimSpace(text))
	if n, err := strconv.Atoi(text); err == nil {
		if n >= 1 && n <= len(choices) {
			return choices[n-1].Name, nil
		}
		return "", fmt.Errorf("there are %d choices; %d is none of them", len(choices), n)
	}
	var starts []string
	for _, c := range choices {
		name, title := strings.ToLower(c.Name), strings.ToLower(ChoiceTitle(c))
		if text == name || text == title {
			return c.Name, nil
		}
		if text != "" && (strings.HasPrefix(name, text) || strings.HasPrefix(title, text)) {
			starts = append(starts, c.Name)
		}
	}
	if len(starts) == 1 {
		return starts[0], nil
	}
	var names []string
	for i, c := range choices {
		names = append(names, fmt.Sprintf("%d %s", i+1, ChoiceTitle(c)))
	}
	return "", fmt.Errorf("%q is none of: %s", source.CleanLine(text), strings.Join(names, ", "))
}

// ChoiceTitle is the choice in words.
func ChoiceTitle(c tree.Choice) string {
	if c.Title != "" {
		return c.Title
	}
	return c.Name
}
