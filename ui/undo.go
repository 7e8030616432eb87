package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
)

// undo takes the last event back that may be.
func (s *Session) undo(ctx context.Context) (Reply, error) {
	if s.Watch().Runs {
		s.watch = Watch{}
		return Reply{Said: []string{"The time is dropped."}}, nil
	}
	if s.asked != "" || s.pending != nil || s.closing != "" {
		s.asked, s.pending, s.closing = "", nil, ""
		return Reply{Said: []string{"Back to the step."}}, nil
	}
	if s.Position().Serving != nil {
		s.serving = ""
		return Reply{Said: []string{"Back to the list."}}, nil
	}
	seq, err := s.lastAnswer()
	if err != nil {
		return Reply{}, err
	}
	said, err := s.takeBack(ctx, seq)
	return Reply{Said: said}, err
}

// CanUndo says whether there is an answer to take back.
func (s *Session) CanUndo() bool {
	_, err := s.lastAnswer()
	return err == nil
}

// lastAnswer is the last event that the tech would call an answer. Confirmed
// conditions and acknowledged dangers are left alone: they go stale by
// themselves. A piece that was drawn goes with the choice, or the owner's answer, that it
// was drawn for.
func (s *Session) lastAnswer() (int64, error) {
	drawn := int64(0)
	for _, e := range slices.Backward(s.events) {
		switch e.Kind {
		case job.KindDrawn:
			if drawn == 0 && !s.gone(e.Seq) {
				drawn = e.Seq
			}
			continue
		case job.KindSafe, job.KindHeeded, job.KindOpened, job.KindTrees, job.KindUndone, job.KindIntake:
			continue
		}
		err := job.CanUndo(s.events, e.Seq)
		var no *job.NotUndoable
		switch {
		case err == nil:
			return e.Seq, nil
		case errors.As(err, &no) && s.gone(e.Seq):
			continue
		case (e.Kind == job.KindChosen || e.Kind == job.KindAsked) && drawn > 0 && errors.As(err, &no) && no.By > 0 && s.event(no.By).Kind == job.KindDrawn:
			return drawn, nil
		}
		return 0, err
	}
	return 0, fmt.Errorf("there is nothing to undo")
}

// gone says whether an event was taken back already.
func (s *Session) gone(seq int64) bool {
	return slices.ContainsFunc(s.events, func(e job.Event) bool { return e.Kind == job.KindUndone && e.Undone.Seq == seq })
}

// describe names one event of the log in words.
func (s *Session) describe(seq int64) string {
	for _, e := range s.events {
		if e.Seq != seq {
			continue
		}
		switch e.Kind {
		case job.KindRead:
			return s.testTitle(e.Read.Test) + ", " + e.Read.Reading.Text
		case job.KindSeen:
			return s.testTitle(e.Seen.Test) + ", " + e.Seen.Choice
		case job.KindCant:
			return s.testTitle(e.Cant.Test+e.Cant.Work) + ", " + e.Cant.Why
		case job.KindDone:
			return s.testTitle(e.Done.Work)
		case job.KindTicked:
			return s.testTitle(e.Ticked.Repair)
		case job.KindAgreed:
			return e.Agreed.Term
		case job.KindChosen:
			return "the way that was chosen"
		case job.KindAsked:
			return "the owner's answer"
		case job.KindLined:
			return trimStop(e.Lined.Line)
		case job.KindServed:
			return s.serviceTitle(e.Served.Service)
		case job.KindBinned:
			return s.partTitle(e.Binned.Part) + " in the parts bin"
		case job.KindCorrected:
			return "what was put right of the machine"
		case job.KindNoted:
			return "the note"
		case job.KindSafe:
			return "the make-safe confirmation"
		}
	}
	return "the last answer"
}

// testTitle is the title of a test, a piece of work or a repair.
func (s *Session) testTitle(id string) string {
	if sys := s.pos.System; sys != nil {
		if t := sys.Test(id); t != nil {
			return t.Title
		}
		if w := sys.FindWork(id); w != nil {
			return w.Title
		}
	}
	if r := s.bench.Library.Repairs[id]; r != nil {
		return r.Title
	}
	return strings.ReplaceAll(id, "_", " ")
}
