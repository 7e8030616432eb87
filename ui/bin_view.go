package ui

import (
	"context"
	"fmt"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/source"
)

// lookInBin reads the parts bin again, for the offers. A bin that can't be read
// keeps nobody from working: the store refuses a piece that is not there.
func (s *Session) lookInBin(ctx context.Context) {
	s.shelves, s.binTrouble = s.bench.Store.Bin(ctx)
	for i, p := range s.shelves {
		if p.Drawn == s.id && !s.fitted(s.events, p.DrawnBy, p.Part) {
			s.shelves[i].Drawn = 0 // reserved for this very job, which may still choose
		}
	}
}

// pieceLines say of a path which pieces of the bin it takes, with what was read on
// them.
func pieceLines(p repair.Path) []string {
	var out []string
	for _, l := range p.FromBin() {
		out = append(out, "   From the parts bin: "+l.Part.Title+", "+l.Note)
	}
	return out
}

// binLines say that the bin could not be read.
func (s *Session) binLines() []string {
	if s.binTrouble == nil {
		return nil
	}
	return []string{"The parts bin could not be read, so nothing of it is offered: " + source.CleanLine(s.binTrouble.Error())}
}

// tooLate says that a piece which was still on the list is no longer there.
type tooLate struct {
	error
	where string
}

func (t *tooLate) Error() string {
	return "another bench took it: " + t.where + ". The list is new: look, then choose again. Nothing was recorded"
}

func (t *tooLate) Unwrap() error { return t.error }

// whereNow says where the first piece is that events would have drawn and that is
// not there.
func (s *Session) whereNow(events []job.Event) string {
	for _, e := range events {
		if e.Kind != job.KindDrawn {
			continue
		}
		at := slices.IndexFunc(s.shelves, func(p job.Shelved) bool { return p.Name == e.Drawn.Piece })
		if at < 0 {
			return fmt.Sprintf("piece %s is not in the parts bin any more", source.CleanLine(e.Drawn.Piece))
		}
		if !s.shelves[at].Free() {
			return fmt.Sprintf("piece %s %s", s.shelves[at].Name, s.shelves[at].Where())
		}
	}
	return "the piece moved"
}
