package ui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/report"
	"benchlead/diag/walk"
)

// View is a page of text that was asked for, a line each, not wrapped.
func (s *Session) View(view Verb) []string {
	if s.pos.System == nil && view != Help {
		return []string{"The fault trees in use have no such system as this job's; its readings are kept."}
	}
	switch view {
	case Why:
		return s.whyLines()
	case Left:
		return s.leftLines()
	case Found:
		return s.foundLines()
	case Machine:
		return append(s.machineLines(), s.machineHint("its number and what is right, as 2 ...")...)
	case Suspected:
		return s.suspectLines()
	case Paths:
		return s.PathLines()
	case List:
		return s.listLines()
	case Help:
		return s.helpLines()
	}
	return nil
}

func (s *Session) leftLines() []string {
	out := s.openFaults()
	if open := s.openTests(); len(open) > 0 {
		out = append(out, "Tests that can be taken, with \"take\" and the name: "+strings.Join(open, ", ")+".")
	}
	return out
}

// openTests are the ids of the tests without an answer.
func (s *Session) openTests() []string {
	var out []string
	for _, t := range s.pos.System.Tests {
		if s.pos.Results[t.ID].Mark == walk.Unknown {
			out = append(out, t.ID)
		}
	}
	return out
}

// openFaults are the faults that are neither found nor cleared, with what would decide.
func (s *Session) openFaults() []string {
	v := s.pos.Verdict
	var out []string
	if len(v.Untested) == 0 && len(v.Masked) == 0 {
		return []string{"Nothing is left: every fault is found or cleared."}
	}
	for _, u := range v.Untested {
		line := "Not tested: " + u.Fault.Title
		if slices.Contains(s.pos.TestedBefore, u.Fault) {
			line = "Tested before the repair, not since: " + u.Fault.Title
		}
		if len(u.Doubt) > 0 {
			line = "In doubt, readings contradict each other: " + u.Fault.Title + "; take these again: " + evidenceWords(u.Doubt)
		} else if next := walk.Deciding(s.bench.Library, s.pos, u.Fault.ID); next != nil {
			line += ". To find out, take next: " + next.Title + " (take " + next.ID + ")"
		}
		out = append(out, line+".")
	}
	for _, m := range v.Masked {
		out = append(out, fmt.Sprintf("Can't be tested until \"%s\" is repaired: %s.", m.By.Title, m.Fault.Title))
	}
	return out
}

func evidenceWords(list []walk.Evidence) string {
	var out []string
	for _, e := range list {
		out = append(out, fmt.Sprintf("%s (%s)", e.Test.Title, e.Says))
	}
	return strings.Join(out, "; ")
}

func (s *Session) foundLines() []string {
	v := s.pos.Verdict
	out := []string{report.Standing(s.bench.Library, s.pos, s.facts)}
	switch { // of the machine as it is now nothing is found: what was is asked for
	case len(s.pos.Ticked) > 0:
		now := out[0]
		if len(v.Found)+len(v.Untested) == 0 {
			now = "No fault is found." // and nothing else than the fault is to be looked for
		}
		out = append(s.whatCameOfIt(), "Since the repair: "+now)
	case s.facts.Closed != nil:
		out = s.whatCameOfIt()
	}
	for _, f := range v.Found {
		out = append(out, s.foundWord(f.Fault.ID)+": "+f.Fault.Title+", by "+evidenceWords(f.Evidence)+".")
	}
	for _, c := range v.Cleared {
		how := "by " + evidenceWords(c.Evidence)
		if c.Removed {
			how = "taken off the machine"
		}
		out = append(out, "Cleared: "+c.Fault.Title+", "+how+".")
	}
	for _, u := range walk.Undecided(s.bench.Library, s.pos, s.facts) {
		out = append(out, Undecided(u))
	}
	return append(out, s.Readings()...)
}

// Undecided is one answer that decides nothing, with the test that would.
func Undecided(u walk.Unclear) string {
	line := "Decides nothing: " + titled(u.Test) + strings.TrimSuffix(u.Why, ".") + "."
	if u.Take != nil {
		line += " Next: " + testToTake(u.Take) + "."
	}
	return line
}

// Readings are the answered tests, a line each, in the order of the answers.
func (s *Session) Readings() []string {
	var out []string
	for _, r := range s.Answered() {
		out = append(out, Judged(r))
	}
	return out
}

// Answered are the results that have an answer, in the order of the answers.
func (s *Session) Answered() []walk.Result {
	if s.pos.System == nil {
		return nil
	}
	var out []walk.Result
	for _, t := range s.pos.System.Tests {
		if r := s.pos.Results[t.ID]; r.Mark != walk.Unknown {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b walk.Result) int { return cmp.Compare(a.Seq, b.Seq) })
	return out
}

func (s *Session) helpLines() []string {
	out := append(slices.Clone(answerWords), s.severalAtOnce()...)
	for _, v := range verbs {
		if s.bench.Suspects == nil && (v.Verb == Suspected || v.Verb == Tell) {
			continue
		}
		out = append(out, fmt.Sprintf("%-14s %s", v.Form, v.Says))
	}
	return out
}
