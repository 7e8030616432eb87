package ui

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/report"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// outcomes are the ways a job can end from where it stands. What would not be
// true is not offered.
func (s *Session) outcomes() []job.Outcome {
	chosen, mended := s.facts.Chosen, len(s.facts.Repaired) > 0
	switch {
	case chosen != nil && chosen.Path == job.PathPartOut:
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
		return []job.Outcome{job.Proved}
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
// bypassed, or a safety function that was seen to fail. Empty when nothing does.
func (s *Session) failing() string {
	for _, f := range s.pos.Verdict.Found {
		if repair.Bypassed(f.Fault) {
			return f.Fault.Title
		}
	}
	for _, id := range s.pos.System.HandBack {
		if r := s.pos.Results[id]; r.Mark != walk.Unknown && walk.Dangerous(r) {
			return r.Test.Title
		}
	}
	return ""
}

// proof says why the repair is not proved; nil when it is: nothing is found, every
// check reading and every safety function has an answer, and of what was found and
// mended nothing is left in doubt that a check reading could have cleared.
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
			if !s.pos.Results[check].Counts() {
				return fmt.Errorf("%s was not taken again", s.testTitle(check))
			}
		}
		if left := s.unproved(r); left != "" {
			return fmt.Errorf("the check readings do not clear this: %s", left)
		}
	}
	if !s.safetyProved() {
		return fmt.Errorf("a safety function is not proved")
	}
	return nil
}

// unproved names a fault that was found, that the repair should have cleared, and
// that its check readings leave undecided though one of them could clear it.
func (s *Session) unproved(r *tree.Repair) string {
	for _, id := range r.Clears {
		if !s.everFound(id) || s.cleared(id) {
			continue
		}
		for _, check := range r.Checks {
			if t := s.pos.System.Test(check); t != nil && walk.Clears(t, id) {
				return s.faultTitle(id)
			}
		}
	}
	return ""
}

// everFound says whether a fault was among the findings at some time, by the log.
func (s *Session) everFound(fault string) bool {
	return slices.ContainsFunc(s.events, func(e job.Event) bool { return e.Shown != nil && slices.Contains(*e.Shown, fault) })
}

func (s *Session) cleared(fault string) bool {
	return slices.ContainsFunc(s.pos.Verdict.Cleared, func(c walk.Clearing) bool { return c.Fault.ID == fault })
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
	for _, id := range s.pos.System.HandBack {
		if r := s.pos.Results[id]; !r.Counts() || walk.Dangerous(r) {
			return false
		}
	}
	return true
}

func (s *Session) closePrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: "Close the job", Ask: "close N"}
	for _, a := range s.facts.Agreed {
		if a.Way != "" {
			out.Tell = append(out.Tell, a.Term+", met by this: "+a.Way)
		}
	}
	if failing := s.failing(); failing != "" {
		out.Tell = append(out.Tell, "Not to be run: "+failing+". Tell the owner in writing.")
	}
	for i, o := range s.outcomes() {
		out.Choices = append(out.Choices, fmt.Sprintf("%d %s", i+1, s.outcomeWords(o)))
	}
	return out
}

// closedPrompt is what is left to do once a job is closed: hand it over.
func (s *Session) closedPrompt(p walk.Position) Prompt {
	c := s.facts.Closed
	out := Prompt{Stage: p.Stage, Title: fmt.Sprintf("Job %d is closed: %s", s.id, c.Outcome)}
	if c.Why != "" {
		out.Tell = append(out.Tell, "Because: "+trimStop(c.Why)+".")
	}
	if c.Outcome == job.Unsafe {
		out.Tell = append(out.Tell, "Tag it. It is not run, and the owner has it in writing.")
	}
	verb := fmt.Sprintf("  benchlead report %d ", s.id)
	out.Tell = append(out.Tell,
		"The owner's report, at the command line:", verb+fmt.Sprintf("--for owner --html --to job%d.html", s.id),
		"A message for the owner's telephone:", verb+"--for message",
		"A tag for the machine:", verb+fmt.Sprintf("--for tag --html --to tag%d.html", s.id),
	)
	return out
}

// close ends the job and freezes what was concluded.
func (s *Session) close(ctx context.Context, a Action) (Reply, error) {
	outcomes := s.outcomes()
	switch {
	case a.Pick > len(outcomes):
		return Reply{}, fmt.Errorf("%d is no number of the list; \"close\" shows it", a.Pick)
	case a.Pick == 0:
		said := []string{"Close the job as:"}
		for i, o := range outcomes {
			said = append(said, fmt.Sprintf("  close %d  %s", i+1, s.outcomeWords(o)))
		}
		return Reply{Said: said}, nil
	}
	outcome := outcomes[a.Pick-1]
	if outcome != job.PartedOut && len(walk.PutBack(s.bench.Library, s.pos.System, s.facts)) > 0 {
		s.asked, s.closing = "", true
		return Reply{Said: []string{"First all is put back as it was; then close the job again."}}, nil
	}
	v := s.pos.Verdict
	closed := job.Closed{
		Outcome: outcome, Why: cmp.Or(a.Text, s.why(outcome)),
		Verdict: report.Sentence(v, s.pos.System), Found: foundIDs(v),
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

// outcomeWords is an outcome with the reason for it.
func (s *Session) outcomeWords(o job.Outcome) string {
	if why := s.why(o); why != "" {
		return fmt.Sprintf("%s (%s)", o, why)
	}
	return string(o)
}

// why is the reason for an outcome, as far as the log knows it.
func (s *Session) why(o job.Outcome) string {
	no := walk.Declined(s.facts)
	switch {
	case o == job.Unsafe && s.failing() != "":
		return s.failing()
	case o == job.Unsafe && len(s.facts.Repaired) > 0 && !s.safetyProved():
		return "a safety function is not proved"
	case o == job.Unsafe, o == job.Proved:
		return ""
	case no != nil:
		return "declined by " + whoWords(no.Asked) + ", " + strings.TrimSpace(no.Total+" "+no.Currency)
	case o == job.NotProved:
		if err := s.proof(); err != nil {
			return err.Error()
		}
	}
	return ""
}
