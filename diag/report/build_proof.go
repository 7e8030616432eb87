package report

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// proof sets the tests that the repairs are checked by side by side.
func (s *story) proof(d *Document) {
	if !s.repaired {
		return
	}
	var checks []string
	for _, id := range s.facts.Repaired {
		if r := s.lib.Repairs[id]; r != nil {
			checks = append(checks, r.Checks...)
		}
	}
	for i, id := range checks {
		test := s.system.Test(id)
		if test == nil || slices.Contains(checks[:i], id) {
			continue
		}
		line := Proof{Test: id, Title: test.Title}
		line.Healthy, _, _ = healthy(test, s.values)
		was, is := s.before.Results[id], s.now.Results[id]
		line.Before, line.was = inWords(was), plain(was, s.values)
		if is.Seq != was.Seq {
			line.After, line.is = inWords(is), plain(is, s.values)
		}
		d.Proof = append(d.Proof, line)
	}
}

// inWords is an answer with its band; empty when there is none.
func inWords(r walk.Result) string {
	value, _, _ := shown(r)
	name, answer, _ := band(r)
	switch {
	case value == "":
		return ""
	case r.Mark == walk.Seen:
		return value
	case answer != string(measure.Called):
		return value + ", " + answer
	}
	return value + ", " + name
}

func (s *story) safety(d *Document) {
	for _, id := range walk.SafetyOf(s.system, s.facts) {
		test, r := s.system.Test(id), s.now.Results[id]
		if test == nil {
			continue
		}
		line := SafetyLine{Test: id, Title: test.Title, Result: inWords(r), State: SafetyOpen, plain: plain(r, s.values)}
		switch {
		case line.Result == "" || r.Mute():
		case walk.Dangerous(r):
			line.State = SafetyFailed
		case absent(r):
			line.State = SafetyAbsent
		case r.Mark == walk.Seen || r.Call().Answer == measure.Called:
			line.State = SafetyProved
		}
		d.Safety = append(d.Safety, line)
	}
}

func (s *story) close(d *Document) {
	if c := s.facts.Closed; c != nil {
		d.Outcome, d.Why = string(c.Outcome), source.CleanLine(c.Why)
	}
	for _, n := range s.facts.Notes {
		d.Notes = append(d.Notes, source.CleanLine(n.Text))
	}
	if s.facts.Digest != s.lib.Digest {
		d.Notes = append(d.Notes, "The trees were changed after this job was last worked on. What it concluded is shown as recorded; "+
			"bands and healthy values are those of today's trees.")
	}
}

// absent says whether it was seen that the machine has no such thing.
func absent(r walk.Result) bool {
	return r.Mark == walk.Seen && slices.ContainsFunc(r.Test.Choices, func(c tree.Choice) bool {
		return c.Absent && c.Name == r.Choice
	})
}
