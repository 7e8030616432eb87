package ui

import (
	"fmt"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// outcomes are the ways a job can end from where it stands. What would not be
// true is not offered.
func (s *Session) outcomes() []job.Outcome {
	chosen, mended := s.facts.Chosen, len(s.facts.Repaired) > 0
	switch {
	case s.partedOut():
		return []job.Outcome{job.PartedOut, job.Unsafe}
	case s.failing() != "":
		return []job.Outcome{job.Unsafe}
	case !mended && chosen != nil && len(chosen.Repairs) == 0:
		return slices.Compact([]job.Outcome{outcomeOf(chosen.Path), job.Unrepaired, job.Unsafe})
	case !mended:
		return []job.Outcome{job.Unrepaired, job.Unsafe}
	case !s.safetyProved():
		return []job.Outcome{job.Unsafe}
	case chosen != nil && len(chosen.Repairs) == 0 && outcomeOf(chosen.Path) == job.SoldAsIs:
		return []job.Outcome{job.SoldAsIs, job.NotProved, job.Unsafe}
	case s.proof() == nil && s.pos.Stage == walk.AtClose:
		// Unsafe too: somebody may see a danger that the trees don't know.
		return []job.Outcome{job.Proved, job.Unsafe}
	}
	return []job.Outcome{job.NotProved, job.Unsafe}
}

func outcomeOf(path string) job.Outcome {
	if path == repair.ChooseAsIs {
		return job.SoldAsIs
	}
	return job.Unrepaired
}

// failing names what makes the machine unfit to be run: a safety switch that is
// bypassed, or a safety function that was seen to fail. What was seen stands until it
// is repaired or seen otherwise: work that makes its test unknown again mends nothing.
// Empty when nothing does.
func (s *Session) failing() string {
	for _, f := range s.pos.Verdict.Found {
		if repair.Bypassed(f.Fault) {
			return f.Fault.Title
		}
	}
	for _, id := range walk.SafetyOf(s.pos.System, s.facts) {
		if r := s.pos.Results[id]; r.Mark != walk.Unknown && walk.Dangerous(r) {
			return r.Test.Title
		}
	}
	lapsed := walk.LapsedOf(s.bench.Library, s.facts, s.pos)
	for _, f := range lapsed.Found {
		if repair.Bypassed(f) {
			return f.Title
		}
	}
	for _, t := range lapsed.Failed {
		return t.Title
	}
	return ""
}

// proof says why the repair is not proved; nil when it is: nothing is found, every
// check reading and every safety function has an answer, and all that was found and
// mended is cleared.
func (s *Session) proof() error {
	for _, f := range s.pos.Verdict.Found {
		return fmt.Errorf("%s is found", f.Fault.Title)
	}
	for _, id := range s.facts.Repaired {
		r := s.bench.Library.Repairs[id]
		if r == nil || s.takenOff(r) {
			continue
		}
		for _, check := range r.Checks {
			if !s.pos.Results[check].Counts() && !s.pos.System.HasNot(check, s.facts.Intake.LabelText, s.facts.Seen) {
				return fmt.Errorf("%s was not taken again", s.testTitle(check))
			}
		}
	}
	if open := walk.Unproved(s.bench.Library, s.pos, s.facts); len(open) > 0 {
		lacking := ""
		if test := walk.Proving(s.bench.Library, s.pos, open[0].ID); test != nil {
			lacking = ". This is lacking: " + testToTake(test)
		}
		return fmt.Errorf("the check readings do not clear this: %s%s", open[0].Title, lacking)
	}
	if !s.safetyProved() {
		return fmt.Errorf("a safety function is not proved")
	}
	return nil
}

// takenOff says whether a conversion took off all that a repair had mended.
func (s *Session) takenOff(r *tree.Repair) bool {
	if r.Kind == tree.Conversion {
		return false
	}
	stays := func(fault string) bool {
		return !slices.ContainsFunc(s.pos.Verdict.Cleared, func(c walk.Clearing) bool { return c.Fault.ID == fault && c.Removed })
	}
	return !slices.ContainsFunc(r.Clears, stays)
}

// safetyProved says whether every hand-back test has an answer, and none a
// dangerous one.
func (s *Session) safetyProved() bool {
	for _, id := range walk.SafetyOf(s.pos.System, s.facts) {
		if r := s.pos.Results[id]; !r.Counts() || walk.Dangerous(r) {
			return false
		}
	}
	return true
}
