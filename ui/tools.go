package ui

import (
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// noClamp says at a test for a clamp, in a job and a shop of which no meter has one, how
// the walk goes on without; empty where one is there. A clamp in the drawer that nobody
// named can be read all the same.
func (s *Session) noClamp(t *tree.Test) string {
	if t.Function != measure.ClampAmps || s.hasMeterFor(measure.ClampAmps) || s.bench.owns("clamp") {
		return ""
	}
	out := "No clamp is among the meters and tools of this shop. Without one, pass this step"
	if next := s.without(t); next != "" {
		return out + ": it goes on with \"" + strings.TrimRight(next, ".") + "\"."
	}
	return out + "."
}

// hasMeterFor says whether the meter of the job, or one that the shop owns, measures
// something by itself.
func (s *Session) hasMeterFor(f measure.Function) bool {
	for _, id := range append([]string{s.facts.Intake.Meter.ID}, s.bench.Meters...) {
		if m := s.bench.Library.Meters[id]; m != nil && slices.ContainsFunc(m.Scales, func(sc measure.Scale) bool { return sc.Function == f }) {
			return true
		}
	}
	return false
}

// owns says whether one of the shop's tools is called so, or has it in its name.
func (b Bench) owns(tool string) bool {
	return slices.ContainsFunc(b.Tools, func(own string) bool {
		return slices.Contains(strings.Fields(strings.ToLower(own)), tool)
	})
}

// without is what comes next if a test is passed over; empty when nothing else does.
func (s *Session) without(t *tree.Test) string {
	trial := append(slices.Clone(s.events), job.Event{Seq: s.lastSeq() + 1, Kind: job.KindCant, Cant: &job.Cant{Test: t.ID, Why: "no clamp"}})
	facts, err := job.Fold(trial)
	if err != nil {
		return ""
	}
	p := walk.Where(s.bench.Library, facts)
	switch {
	case p.Test != nil && p.Test.ID == t.ID:
		return ""
	case p.Stage == walk.AtVerdict:
		return "Verdict"
	}
	return nextTitle(p)
}
