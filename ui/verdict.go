package ui

import (
	"context"
	"fmt"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/report"
	"benchlead/diag/walk"
)

func (s *Session) verdictPrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: "Verdict", Ask: "choose N, or close"}
	out.Tell = append(out.Tell, report.Sentence(p.Verdict, p.System))
	if p.Stop != nil {
		out.Tell = append(out.Tell, p.Stop.Say)
		out.Caution = s.cautionWords([]string{p.Stop.Caution})
	}
	out.Tell = append(out.Tell, s.beforeBuying()...)
	out.Tell = append(out.Tell, s.PathLines()...)
	return out
}

// outcomes are the ways a job can end from where it stands. What is not
// allowed from there is not offered.
func (s *Session) outcomes() []job.Outcome {
	proved := s.proof()
	switch {
	case s.facts.Chosen == nil:
		return []job.Outcome{job.Unrepaired, job.Unsafe}
	case len(s.facts.Chosen.Repairs) == 0:
		return slices.Compact([]job.Outcome{outcomeOf(s.facts.Chosen.Path), job.Unrepaired, job.Unsafe})
	case len(s.facts.Ticked) == 0 && len(s.facts.Repaired) == 0:
		return []job.Outcome{job.Unrepaired, job.Unsafe} // chosen, and nothing done yet
	case proved == nil && s.pos.Stage == walk.AtClose:
		return []job.Outcome{job.Proved}
	case s.safetyProved():
		return []job.Outcome{job.NotProved, job.Unrepaired, job.Unsafe}
	}
	return []job.Outcome{job.Unsafe}
}

func outcomeOf(path string) job.Outcome {
	switch path {
	case "part out":
		return job.PartedOut
	case "sell as is":
		return job.SoldAsIs
	}
	return job.Unrepaired
}

// proof says why the repair is not proved; nil when it is: every check reading
// and every safety function answered, and nothing found.
func (s *Session) proof() error {
	for _, f := range s.pos.Verdict.Found {
		return fmt.Errorf("%s is found", f.Fault.Title)
	}
	for _, id := range s.facts.Repaired {
		r := s.bench.Library.Repairs[id]
		if r == nil {
			continue
		}
		for _, check := range r.Checks {
			if !s.answered(check) {
				return fmt.Errorf("%s was not taken again", s.testTitle(check))
			}
		}
	}
	if !s.safetyProved() {
		return fmt.Errorf("a safety function is not proved")
	}
	return nil
}

func (s *Session) answered(test string) bool {
	r := s.pos.Results[test]
	return r.Mark == walk.Read && !r.Mute() || r.Mark == walk.Seen
}

// safetyProved says whether every hand-back test was answered without a
// dangerous band or choice.
func (s *Session) safetyProved() bool {
	for _, id := range s.pos.System.HandBack {
		if !s.answered(id) || walk.Dangerous(s.pos.Results[id]) {
			return false
		}
	}
	return true
}

func (s *Session) closePrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: "Close the job", Ask: "close N"}
	if why := s.proof(); why != nil && s.facts.Chosen != nil && len(s.facts.Chosen.Repairs) > 0 {
		out.Tell = append(out.Tell, "Not proved: "+why.Error()+".")
	}
	for i, o := range s.outcomes() {
		out.Choices = append(out.Choices, fmt.Sprintf("%d %s", i+1, o))
	}
	return out
}

// close ends the job and freezes what was concluded.
func (s *Session) close(ctx context.Context, a Action) (Reply, error) {
	outcomes := s.outcomes()
	if a.Pick == 0 || a.Pick > len(outcomes) {
		said := []string{"Close the job as:"}
		for i, o := range outcomes {
			said = append(said, fmt.Sprintf("  close %d  %s", i+1, o))
		}
		if a.Pick > len(outcomes) {
			return Reply{}, fmt.Errorf("%d is no number of the list; \"close\" shows it", a.Pick)
		}
		return Reply{Said: said}, nil
	}
	if outcomes[a.Pick-1] != job.PartedOut && len(walk.PutBack(s.bench.Library, s.pos.System, s.facts)) > 0 {
		s.asked, s.closing = "", true
		return Reply{Said: []string{"First all is put back as it was; then close the job again."}}, nil
	}
	v := s.pos.Verdict
	closed := job.Closed{Outcome: outcomes[a.Pick-1], Verdict: report.Sentence(v, s.pos.System), Found: foundIDs(v)}
	if why := s.proof(); why != nil && closed.Outcome == job.NotProved {
		closed.Why = why.Error()
	}
	for _, c := range v.Cleared {
		closed.Cleared = append(closed.Cleared, c.Fault.ID)
	}
	for _, m := range v.Masked {
		closed.Masked = append(closed.Masked, m.Fault.ID)
	}
	for _, u := range v.Untested {
		closed.Untested = append(closed.Untested, u.Fault.ID)
	}
	said, err := s.move(ctx, job.Event{Kind: job.KindClosed, Closed: &closed})
	if err != nil {
		return Reply{}, err
	}
	return Reply{Said: append([]string{fmt.Sprintf("Job %d closed: %s.", s.id, closed.Outcome)}, said...)}, nil
}
