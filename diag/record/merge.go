package record

import (
	"crypto/sha256"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
)

// Head is what is known of a job of an export before it is taken in. Its number is
// that of the export.
type Head struct {
	job.Summary
	First  Digest // of its first event
	Events int
	Spot   int64 // the byte of the export at which it stands
}

// Digest stands for an event: equal events have the same.
type Digest [sha256.Size]byte

// HeadOf is the head of a job that has an event at least.
func HeadOf(l Log) Head {
	return Head{Summary: CardOf(l.Job, l.Events).Summary, First: DigestOf(l.Events[0]), Events: len(l.Events), Spot: l.Spot}
}

// DigestOf is the digest of an event.
func DigestOf(e job.Event) Digest { return sha256.Sum256(job.Canonical([]job.Event{e})) }

// Renumber gives jobs the numbers they have in another record: old to new. Pieces
// of the parts bin are called by the job that they came from, so their names in
// the log change with it. The events are changed where they are.
func Renumber(events []job.Event, to map[int64]int64) {
	for i := range events {
		if d := events[i].Drawn; d != nil {
			d.Piece = renamed(d.Piece, to)
		}
		if c := events[i].Chosen; c != nil {
			for k := range c.Lines {
				c.Lines[k].Piece = renamed(c.Lines[k].Piece, to)
			}
		}
	}
}

// renamed is the name of a piece, "job.event", with another job's number; as it
// is when it has some other form, or is of a job that is not among those.
func renamed(piece string, to map[int64]int64) string {
	number, event, ok := strings.Cut(piece, ".")
	id, err := strconv.ParseInt(number, 10, 64)
	if now, known := to[id]; ok && err == nil && known {
		return strconv.FormatInt(now, 10) + "." + event
	}
	return piece
}

// Extends says whether a log begins with all events of another: then the other
// holds nothing that it lacks.
func Extends(log, other []job.Event) bool {
	if len(other) > len(log) {
		return false
	}
	return slices.Equal(job.Canonical(log[:len(other)]), job.Canonical(other))
}
