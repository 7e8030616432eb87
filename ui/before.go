package ui

import (
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// before is what a test came out as before the work or the repair that made it
// unknown: its last answer of then. ok is false when there was none.
func (s *Session) before(test *tree.Test) (a job.Answer, ok bool) {
	list := s.facts.Before(test.ID)
	if len(list) == 0 {
		return a, false
	}
	return list[len(list)-1], true
}

// estimateBefore is the reading of then with its uncertainty; ok is false when
// there was no number.
func (s *Session) estimateBefore(test *tree.Test) (e measure.Estimate, ok bool) {
	a, ok := s.before(test)
	if !ok || a.Read == nil || a.Read.Reading.Kind == measure.Flicker {
		return e, false
	}
	if a.Read.Reading.Kind == measure.OverRange && !walk.Endless(test.Function) {
		return e, false
	}
	e, err := s.facts.Intake.Meter.Estimate(a.Read.Reading, s.facts.Intake.Celsius)
	return e, err == nil
}

// beforeWords is the answer of then in words, with its band: "9.1 V, sags". Empty
// when there was none.
func (s *Session) beforeWords(test *tree.Test) string {
	a, ok := s.before(test)
	switch {
	case !ok:
		return ""
	case a.Seen != nil:
		for _, c := range test.Choices {
			if c.Name == a.Seen.Choice {
				return tree.InSentence(ChoiceTitle(c))
			}
		}
		return a.Seen.Choice
	}
	e, ok := s.estimateBefore(test)
	if !ok {
		return strings.TrimSpace(a.Read.Reading.Text)
	}
	out := Amount(test, e.Value)
	if cuts, ok := s.cuts(test); ok && len(test.Bands) > 0 {
		if call := measure.Judge(e, cuts, nil); call.Answer == measure.Called {
			return out + ", " + test.Bands[call.Band].Name
		}
		return out + ", too close to call"
	}
	return out
}

// cuts are the limits of a test, base units; false while one is not known.
func (s *Session) cuts(test *tree.Test) (out []float64, ok bool) {
	values, _ := walk.Values(s.pos.System, *s.facts.Intake)
	for _, b := range test.Bands {
		if b.Below == nil {
			continue
		}
		cut, err := b.Cut(values)
		if err != nil {
			return nil, false
		}
		out = append(out, cut)
	}
	return out, true
}

// heard says how a recorded answer was judged, beside what the same test came out
// as before a repair.
func (s *Session) heard(test *tree.Test) string {
	now := Judged(s.pos.Results[test.ID])
	was := s.beforeWords(test)
	if was == "" {
		return now
	}
	for _, head := range []string{titled(test), test.Title + ": "} {
		if rest, ok := strings.CutPrefix(now, head); ok {
			return head + "before " + was + "; now " + tree.InSentence(rest)
		}
	}
	return now
}
