package job

import (
	"context"
	"fmt"
)

// Store keeps the logs of all jobs. What it has acknowledged is durable, and a
// call either does all of what it says or nothing. Times and numbers that come
// in with events are kept as they are; sequence numbers are given by the Store.
// It may be used by many goroutines and by several programs at once. Errors are
// those of errors.go (use errors.Is), *BadEvent, or the context's.
// jobtest.Suite is the test that every Store must pass.
type Store interface {
	// Create begins a job with its first events, the first of them an intake,
	// and gives it the next free number, counting from 1.
	Create(ctx context.Context, first []Event) (id int64, err error)

	// Append adds events to a job and returns them with their sequence numbers.
	// expected is the last sequence number the caller knows of; when it is not
	// the job's last, nothing is added and the error is ErrConflict.
	Append(ctx context.Context, id, expected int64, events []Event) ([]Event, error)

	// Load returns all events of a job, by sequence number: 1, 2, 3 ...
	Load(ctx context.Context, id int64) ([]Event, error)

	// Jobs lists all jobs by number.
	Jobs(ctx context.Context) ([]Summary, error)

	// Bin lists the pieces of the parts bin in the order they went in, those that
	// a job took and those that are gone for good too. Create and Append move
	// pieces, together with the events that say so: binned puts one in, drawn
	// takes one out for the job, undone takes either back. When a piece is not
	// there to be had they fail as a whole, with ErrTaken or ErrNoPiece.
	Bin(ctx context.Context) ([]Shelved, error)

	// Shelve puts a piece that came without a job into the bin and gives its
	// name. at is in microseconds since 1970 UTC.
	Shelve(ctx context.Context, piece Binned, at int64) (name string, err error)

	// Discard takes a piece out of the bin for good, without a job. The error is
	// ErrNoPiece, or ErrTaken when it is out already.
	Discard(ctx context.Context, name string, gone Gone) error
}

// Summary is one job in a list. Times are microseconds since 1970 UTC.
type Summary struct {
	ID        int64
	Machine   string
	System    string
	Complaint string
	Words     string // the complaint as the owner put it
	OpenedAt  int64  // time of the intake
	LastAt    int64  // time of the event with the highest number
	Open      bool
	Outcome   Outcome  // only when closed
	Found     []string // faults, as they stood when it was closed
}

// Summarize makes the summary from a job's log, which is not empty, and its closing
// event, nil while the job is open.
func Summarize(id int64, events []Event, closed *Closed) Summary {
	s := Summary{ID: id, OpenedAt: events[0].At, LastAt: events[len(events)-1].At, Open: closed == nil}
	if in := Described(events); in != nil {
		s.Machine, s.System, s.Complaint, s.Words = in.Machine, in.System, in.Complaint, in.Words
	}
	if closed != nil {
		s.Outcome, s.Found = closed.Outcome, closed.Found
	}
	return s
}

// Number gives events the sequence numbers that follow last, in a new slice,
// and says whether a job that ends there can take them. closed says whether the
// job was closed before. Every Store calls it, so that all refuse the same.
func Number(last int64, closed bool, events []Event) ([]Event, error) {
	out := make([]Event, len(events))
	for i, e := range events {
		e.Seq = last + int64(i) + 1
		if err := admit(e, closed); err != nil {
			return nil, err
		}
		closed = closed || e.Kind == KindClosed
		out[i] = e
	}
	if last == 0 && len(out) == 0 {
		return nil, fmt.Errorf("a job begins with an intake, and there is no event at all")
	}
	return out, nil
}

// admit says whether an event may stand where its number puts it.
func admit(e Event, closed bool) error {
	if err := e.Check(); err != nil {
		return err
	}
	bad := func(err error) error { return &BadEvent{Seq: e.Seq, Kind: e.Kind, Err: err} }
	switch {
	case (e.Seq == 1) != (e.Kind == KindIntake):
		return bad(fmt.Errorf("the intake is the first event of a job, and no other is"))
	case closed && !afterClosing(e.Kind):
		return bad(ErrClosed)
	case e.Kind == KindUndone && e.Undone.Seq >= e.Seq:
		return bad(fmt.Errorf("it takes back event %d, which is not an earlier one", e.Undone.Seq))
	}
	return nil
}

// afterClosing are the kinds that change nothing that closing froze.
func afterClosing(k Kind) bool {
	return k == KindNoted || k == KindOpened || k == KindTrees
}
