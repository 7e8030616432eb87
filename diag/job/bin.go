package job

import (
	"errors"
	"fmt"
	"strings"
)

// Shelved is one piece of the parts bin: a used part that was proved good, with
// what was read on it. It is never changed but by being drawn or going for good.
type Shelved struct {
	Name     string   // PieceOf, or "b1", "b2" ... for a piece that came without a job
	Part     string   // part id of the trees
	Words    string   // in the shop's words
	Shown    []string // what was read on it, in words
	Asking   string   // exact decimal in text
	Currency string
	Place    string // where it lies, in the shop's words
	Job      int64  // off the machine of this job; 0: without a job
	Seq      int64  // the event of that job that put it in
	At       int64  // when it went in, microseconds since 1970 UTC
	Drawn    int64  // the job that took it; 0: none
	DrawnBy  int64  // the event of that job
	Gone     Gone   // how it went for good without a job
}

// Free says whether the piece still lies in the bin.
func (s Shelved) Free() bool { return s.Drawn == 0 && s.Gone.How == "" }

// Where says in words where a piece is: in the bin, in a job, or gone.
func (s Shelved) Where() string {
	switch {
	case s.Drawn != 0:
		return fmt.Sprintf("is in job %d", s.Drawn)
	case s.Gone.How != "":
		return "was " + string(s.Gone.How)
	}
	return "lies in the bin"
}

// Gone is how a piece left the bin for good without a job.
type Gone struct {
	How How
	Why string // to whom, or what was wrong with it
	At  int64  // microseconds since 1970 UTC
}

// How is a way for a piece to leave the bin without a job. Its text is in the
// record for ever.
type How string

// The ways.
const (
	Sold   How = "sold"
	Thrown How = "thrown away"
)

// Check says whether that is a way, and why it went is told.
func (g Gone) Check() error {
	if g.How != Sold && g.How != Thrown {
		return fmt.Errorf("a piece leaves the bin %s or %s, not %q", Sold, Thrown, string(g.How))
	}
	if strings.TrimSpace(g.Why) == "" {
		return errors.New("say why it goes: to whom it was sold, or what is wrong with it")
	}
	return storableText("the reason", g.Why)
}

// PieceOf is the name in the parts bin of the piece that an event of a job put
// there: "14.9".
func PieceOf(job, seq int64) string { return fmt.Sprintf("%d.%d", job, seq) }

// loosePiece is the name of the nth piece that came without a job.
func loosePiece(n int64) string { return fmt.Sprintf("b%d", n) }

// Put is the piece with what an event says of it, as it lies in the bin from
// then on. Every Store builds its pieces so.
func (s Shelved) Put(b Binned, at int64) Shelved {
	s.Part, s.Words, s.Shown, s.Asking, s.Currency, s.Place = b.Part, b.Words, b.Shown, b.Asking, b.Currency, b.Place
	s.At = at
	return s
}

// Off is the piece that a binned event puts into the bin, off the machine of a job.
func Off(job int64, e Event) Shelved {
	return Shelved{Name: PieceOf(job, e.Seq), Job: job, Seq: e.Seq}.Put(*e.Binned, e.At)
}

// Binned is what was said of the piece when it went in.
func (s Shelved) Binned() Binned {
	return Binned{Part: s.Part, Words: s.Words, Shown: s.Shown, Asking: s.Asking, Currency: s.Currency, Place: s.Place}
}

// Loose is the nth piece that came without a job, as every Store keeps it. It
// refuses what Event.Check would.
func Loose(n int64, b Binned, at int64) (Shelved, error) {
	if err := (Event{At: at, Kind: KindBinned, Binned: &b}).Check(); err != nil {
		return Shelved{}, err
	}
	return Shelved{Name: loosePiece(n)}.Put(b, at), nil
}

// Discard is a free piece that went for good. Every Store calls it.
func Discard(s Shelved, g Gone) (Shelved, error) {
	if err := g.Check(); err != nil {
		return s, err
	}
	if !s.Free() {
		return s, taken(s)
	}
	s.Gone = g
	return s, nil
}

func taken(s Shelved) error { return fmt.Errorf("piece %s %s: %w", s.Name, s.Where(), ErrTaken) }
