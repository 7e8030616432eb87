package ui

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/report"
	"benchlead/diag/walk"
)

func (s *Session) closePrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: "Close the job", Ask: "the number of an outcome, and why behind it if there is more to say"}
	for _, a := range s.facts.Agreed {
		if a.Way != "" {
			out.Tell = append(out.Tell, a.Term+", met by this: "+a.Way)
		}
	}
	if c := s.facts.Chosen; c != nil && len(c.Repairs) == 0 {
		out.Tell = append(out.Tell, "Chosen: "+c.Path+". Nothing more is asked; \"close\" ends the job, \"undo\" takes the choice back.")
	}
	if failing := s.failing(); failing != "" {
		out.Tell = append(out.Tell, "Not to be run: "+failing+". Tell the owner in writing.")
	}
	for i, o := range s.outcomes() {
		out.Choices = append(out.Choices, fmt.Sprintf("%d %s", i+1, s.outcomeWords(o)))
	}
	return out
}

// ended says that nothing more can be done; nil while the job is open.
func (s *Session) ended() error {
	if s.pos.Stage != walk.AtClosed {
		return nil
	}
	return fmt.Errorf("job %d is closed; a new complaint is a new job", s.id)
}

// saysNo says whether a line answers a question with no.
func saysNo(a Action) bool {
	return a.Verb == Answer && a.Test == "" && (strings.EqualFold(a.Text, "no") || strings.EqualFold(a.Text, "n"))
}

// askClose shows the outcomes, or asks once whether the job is to be closed with the
// one of that number: a closed job stays closed, the numbers change as it goes on, and a
// number may have been meant for the page before. What has to be put back comes first.
func (s *Session) askClose(ctx context.Context, a Action) (Reply, error) {
	if err := s.ended(); err != nil {
		return Reply{}, err
	}
	outcomes := s.outcomes()
	switch {
	case a.Pick > len(outcomes):
		return Reply{}, fmt.Errorf("%d is no number of the list; \"close\" shows it", a.Pick)
	case a.Pick == 0:
		said := []string{"Close the job as:"}
		for i, o := range outcomes {
			said = append(said, fmt.Sprintf("  close %d  %s", i+1, s.outcomeWords(o)))
		}
		s.endings = outcomes
		return Reply{Said: said}, nil
	case s.toPutBack(outcomes[a.Pick-1]):
		return s.close(ctx, a)
	}
	s.sure = &a
	return Reply{}, nil
}

// goOnClosing asks whether the job is to be closed, once all is put back for that.
func (s *Session) goOnClosing() {
	outcome := s.closing
	if outcome == "" || s.toPutBack(outcome) {
		return
	}
	s.closing = ""
	if at := slices.Index(s.outcomes(), outcome); at >= 0 {
		s.sure = &Action{Verb: Close, Pick: at + 1, Text: s.because}
	}
}

// asOutcome takes a number for an outcome where nothing is left but to close the job;
// behind it may stand why.
func (s *Session) asOutcome(a Action) Action {
	if a.Verb != Answer || a.Test != "" || s.sure != nil || s.Position().Stage != walk.AtClose {
		return a
	}
	number, why, _ := strings.Cut(a.Text, " ")
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 {
		return a
	}
	return Action{Verb: Close, Line: a.Line, Pick: n, Text: strings.TrimSpace(why)}
}

// closeQuestion asks whether the job is to be closed with an outcome.
func (s *Session) closeQuestion(a Action) string {
	return fmt.Sprintf("Close as %q?", s.outcomes()[a.Pick-1])
}

// SureStage is the stage of the prompt that asks whether the job is to be closed.
const SureStage walk.Stage = "close for good"

// surePrompt asks once before a job is closed.
func (s *Session) surePrompt() Prompt {
	return Prompt{Stage: SureStage, Title: s.closeQuestion(*s.sure), Tell: []string{"A closed job stays closed: it can't be undone."}, Ask: "yes to close it for good; anything else goes on"}
}

// close ends the job and freezes what was concluded.
func (s *Session) close(ctx context.Context, a Action) (Reply, error) {
	outcomes := s.outcomes()
	if a.Pick > len(outcomes) {
		return Reply{}, fmt.Errorf("%d is no number of the list; \"close\" shows it", a.Pick)
	}
	outcome := outcomes[a.Pick-1]
	if s.toPutBack(outcome) {
		s.asked, s.closing, s.because, s.endings = "", outcome, a.Text, outcomes
		first := "First all is put back as it was; then you are asked whether to close."
		if outcome == job.Unsafe {
			first = "First what lets it run is off, and the rest back as it was; then you are asked whether to close."
		}
		return Reply{Said: []string{first}}, nil
	}
	v := s.pos.Verdict
	closed := job.Closed{
		Outcome: outcome, Why: cmp.Or(a.Text, s.why(outcome)),
		Verdict: report.Standing(s.bench.Library, s.pos, s.facts), Found: foundIDs(v),
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

// toPutBack says whether something has to be put back before the job ends with an
// outcome.
func (s *Session) toPutBack(o job.Outcome) bool {
	return len(walk.PutBack(s.bench.Library, s.pos.System, s.facts, o)) > 0
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
