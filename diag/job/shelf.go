package job

import "fmt"

// Shelf is where a Store keeps the pieces of the parts bin. Its methods are
// called within the transaction that adds the events.
type Shelf interface {
	// Piece gives the piece of that name; ok is false when there is none.
	Piece(name string) (s Shelved, ok bool, err error)
	// Put adds a piece behind all others.
	Put(s Shelved) error
	// Change puts a piece in the place of the one of its name.
	Change(s Shelved) error
	// Remove takes a piece out as if it had never been there.
	Remove(name string) error
}

// Restock moves pieces as events that are added to a job say. earlier gives an
// event of that job by number. On an error the whole call must be undone: it is
// ErrTaken, ErrNoPiece, *BadEvent, or the shelf's. Every Store calls it, so that
// all keep the same bin.
func Restock(shelf Shelf, job int64, events []Event, earlier func(seq int64) (Event, error)) error {
	for _, e := range events {
		if err := restock(shelf, job, e, earlier); err != nil {
			return err
		}
	}
	return nil
}

func restock(shelf Shelf, job int64, e Event, earlier func(seq int64) (Event, error)) error {
	switch e.Kind {
	case KindBinned:
		return shelf.Put(Off(job, e))
	case KindDrawn:
		return draw(shelf, job, e)
	case KindUndone:
		of, err := earlier(e.Undone.Seq)
		switch {
		case err != nil:
			return err
		case of.Kind == KindBinned:
			if err := takeOff(shelf, PieceOf(job, of.Seq)); err != nil {
				return fmt.Errorf("event %d can't be taken back: %w", of.Seq, err)
			}
		case of.Kind == KindDrawn:
			return giveBack(shelf, job, of)
		}
	}
	return nil
}

// draw takes a piece out for a job.
func draw(shelf Shelf, job int64, e Event) error {
	s, ok, err := shelf.Piece(e.Drawn.Piece)
	switch {
	case err != nil:
		return err
	case !ok:
		return fmt.Errorf("piece %q: %w", e.Drawn.Piece, ErrNoPiece)
	case !s.Free():
		return taken(s)
	case s.Part != e.Drawn.Part:
		return &BadEvent{Seq: e.Seq, Kind: e.Kind, Err: fmt.Errorf("piece %s is of part %q, not %q", s.Name, s.Part, e.Drawn.Part)}
	}
	s.Drawn, s.DrawnBy = job, e.Seq
	return shelf.Change(s)
}

// giveBack puts a piece back that an event had drawn. Only that event's own draw
// counts: taken back twice, the second finds nothing to do.
func giveBack(shelf Shelf, job int64, of Event) error {
	s, ok, err := shelf.Piece(of.Drawn.Piece)
	if err != nil || !ok || s.Drawn != job || s.DrawnBy != of.Seq {
		return err
	}
	s.Drawn, s.DrawnBy = 0, 0
	return shelf.Change(s)
}

// takeOff takes a piece out of the bin whose binning was taken back.
func takeOff(shelf Shelf, name string) error {
	s, ok, err := shelf.Piece(name)
	switch {
	case err != nil || !ok:
		return err
	case !s.Free():
		return taken(s)
	}
	return shelf.Remove(name)
}
