package ui

import (
	"context"
	"errors"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// move records events that choose a path, take that back, or end the job, together
// with the pieces of the bin that go with them: those that the path in force names
// are drawn, those that it doesn't and that were not fitted go back. said tells
// which.
func (s *Session) move(ctx context.Context, events ...job.Event) (said []string, err error) {
	events = s.withPieces(events)
	err = s.record(ctx, events...)
	if errors.Is(err, job.ErrTaken) || errors.Is(err, job.ErrNoPiece) {
		s.lookInBin(ctx)
		s.paths = s.offer()
		return nil, &tooLate{err, s.whereNow(events)}
	}
	if err != nil {
		return nil, err
	}
	return s.moved(events), nil
}

// withPieces adds to events the moves of pieces that make the bin agree with them.
func (s *Session) withPieces(events []job.Event) []job.Event {
	log := s.events
	for _, e := range events {
		e.Seq = int64(len(log)) + 1
		log = append(slices.Clip(log), e)
	}
	facts, err := job.Fold(log)
	if err != nil {
		return events // the store says what is wrong
	}
	want := pathPieces(facts)
	var out []job.Event
	for _, e := range s.drawn() {
		at := slices.IndexFunc(want, func(d job.Drawn) bool { return d == *e.Drawn })
		switch {
		case at >= 0:
			want = slices.Delete(want, at, at+1)
		case !s.fitted(log, e.Seq, e.Drawn.Part):
			out = append(out, job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: e.Seq}})
		}
	}
	out = append(out, events...)
	for _, d := range want {
		out = append(out, job.Event{Kind: job.KindDrawn, Drawn: &d})
	}
	return out
}

// pathPieces are those that the path in force names. A closed job needs none, nor
// does work that the owner does not want.
func pathPieces(facts job.Facts) []job.Drawn {
	var out []job.Drawn
	if facts.Chosen == nil || facts.Closed != nil || walk.Declined(facts) != nil {
		return nil
	}
	for _, l := range facts.Chosen.Lines {
		if l.Piece != "" {
			out = append(out, job.Drawn{Piece: l.Piece, Part: l.Part})
		}
	}
	return out
}

// drawn are the draws of the log that were not taken back.
func (s *Session) drawn() []job.Event {
	var out []job.Event
	for _, e := range s.events {
		if e.Kind == job.KindDrawn && !s.gone(e.Seq) {
			out = append(out, e)
		}
	}
	return out
}

// fitted says whether a repair that uses the part was done since it was drawn. A
// repair that the trees no longer have may have used it.
func (s *Session) fitted(log []job.Event, drawn int64, part string) bool {
	for _, e := range log[min(drawn, int64(len(log))):] {
		if e.Kind != job.KindTicked || s.gone(e.Seq) {
			continue
		}
		r := s.bench.Library.Repairs[e.Ticked.Repair]
		if r == nil || slices.ContainsFunc(r.Parts, func(use tree.PartUse) bool { return use.Part == part }) {
			return true
		}
	}
	return false
}

// moved says which pieces an append reserved and which it gave free.
func (s *Session) moved(events []job.Event) []string {
	var out []string
	tell := func(says, piece string) {
		at := slices.IndexFunc(s.shelves, func(p job.Shelved) bool { return p.Name == piece })
		if at >= 0 && s.shelves[at].Place != "" {
			piece += ", " + source.CleanLine(s.shelves[at].Place)
		}
		out = append(out, says+source.CleanLine(piece)+".")
	}
	for _, e := range events {
		switch {
		case e.Kind == job.KindDrawn:
			tell("Reserved in the parts bin: piece ", e.Drawn.Piece)
		case e.Kind == job.KindUndone && s.event(e.Undone.Seq).Kind == job.KindDrawn:
			tell("Free again in the parts bin: piece ", s.event(e.Undone.Seq).Drawn.Piece)
		}
	}
	return out
}

// event is one of the log, by number.
func (s *Session) event(seq int64) job.Event { return s.events[seq-1] }

// takeBack undoes an event. A choice and the pieces drawn for it go together, and
// what the choice before it had reserved is reserved again.
func (s *Session) takeBack(ctx context.Context, seq int64) ([]string, error) {
	if s.event(seq).Kind == job.KindDrawn {
		seq = s.choiceBefore(seq)
	}
	said := "Taken back: " + s.describe(seq) + "."
	undone := job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: seq}}
	moved, err := []string(nil), error(nil)
	if k := s.event(seq).Kind; k == job.KindChosen || k == job.KindAsked {
		moved, err = s.move(ctx, undone)
	} else {
		err = s.record(ctx, undone)
	}
	if err != nil {
		return nil, err
	}
	return append([]string{said}, moved...), nil
}

// choiceBefore is the choice, or the owner's answer, that a piece was drawn for; the
// draw itself when the log of another program has none.
func (s *Session) choiceBefore(seq int64) int64 {
	for _, e := range slices.Backward(s.events[:seq]) {
		if (e.Kind == job.KindChosen || e.Kind == job.KindAsked) && !s.gone(e.Seq) {
			return e.Seq
		}
	}
	return seq
}
