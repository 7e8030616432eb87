package record

import (
	"slices"

	"benchlead/diag/job"
)

// Card is what a job is listed, looked for and counted by. Lists are sorted,
// each id once, nil when empty.
type Card struct {
	job.Summary
	Owner   string
	EndedAt int64    // microseconds since 1970 UTC; 0 while open
	Came    []string // faults found when the first repair was done; as they stand, without one
	Faults  []string // Came, and those found at later repairs and at the end
	Repairs []string // done
	Parts   []string // of the path that was being worked, and out of the parts bin
	Quoted  int      // minutes of the path that was chosen; 0 without one
	Spent   int64    // microseconds at the bench, by the log: see Pause
	Marks   []string // what it is found by: words, and Mark of ids
}

// Pause is how long nothing may come into a log, in microseconds, before the
// bench is taken to have been left: half an hour. Longer gaps are not time spent.
// Judgement.
const Pause = 30 * 60 * 1_000_000

// Between is the time at the bench from one event to the next, in microseconds.
func Between(at, next int64) int64 {
	if gap := next - at; next > at && gap > 0 && gap <= Pause { // it may overflow
		return gap
	}
	return 0
}

// minutes is the time at the bench to the nearest minute.
func (c Card) minutes() int64 {
	const minute = 60_000_000
	return (c.Spent + minute/2) / minute
}

// Plain says whether an event changes nothing on a card but when it was last
// worked on, and how long.
func Plain(e job.Event) bool {
	switch e.Kind {
	case job.KindRead, job.KindSafe, job.KindHeeded, job.KindOpened, job.KindTrees, job.KindAgreed, job.KindLined, job.KindDone, job.KindServed:
		return e.Shown == nil
	}
	return false
}

// CardOf makes the card of a job from its log. It refuses nothing: of an event
// that it doesn't know it takes what it can.
func CardOf(id int64, events []job.Event) Card {
	if len(events) == 0 {
		return Card{Summary: job.Summary{ID: id, Open: true}}
	}
	w := writing{gone: takenBack(events)}
	for i, e := range events {
		if i > 0 {
			w.card.Spent += Between(events[i-1].At, e.At)
		}
		w.add(e)
	}
	c := w.card
	c.Summary = job.Summarize(id, events, w.closed)
	if in := job.Described(events); in != nil {
		c.Owner = in.Owner
	}
	if !w.mended {
		c.Came = set(w.shown)
	}
	c.Faults = set(append(slices.Concat(c.Came, w.faults, w.shown), c.Found...))
	c.Repairs, c.Parts = set(c.Repairs), set(c.Parts)
	c.Marks = c.marks(w.texts)
	return c
}

// writing is a card while the log is read.
type writing struct {
	card   Card
	gone   map[int64]bool
	shown  []string // findings as last shown
	faults []string // those shown at repairs
	lines  []string // parts of the path chosen
	mended bool
	closed *job.Closed
	texts  []string
}

func (w *writing) add(e job.Event) {
	if !w.gone[e.Seq] {
		w.take(e)
	}
	// What was shown after an event stands until something else is shown, even
	// when the event itself is taken back.
	if e.Shown != nil {
		w.shown = *e.Shown
	}
}

func (w *writing) take(e job.Event) {
	w.texts = append(w.texts, said(e)...)
	switch {
	case e.Chosen != nil:
		w.card.Quoted, w.lines = e.Chosen.Quote.Minutes, nil
		for _, l := range e.Chosen.Lines {
			w.lines = append(w.lines, l.Part)
		}
	case e.Ticked != nil:
		if !w.mended {
			w.card.Came = set(w.shown)
		}
		w.mended = true
		w.faults = append(w.faults, w.shown...)
		w.card.Repairs = append(w.card.Repairs, e.Ticked.Repair)
		w.card.Parts = append(w.card.Parts, w.lines...)
	case e.Drawn != nil:
		w.card.Parts = append(w.card.Parts, e.Drawn.Part)
	case e.Closed != nil:
		w.closed, w.card.EndedAt = e.Closed, e.At
	}
}

func takenBack(events []job.Event) map[int64]bool {
	gone := map[int64]bool{}
	for _, e := range events {
		if e.Undone != nil {
			gone[e.Undone.Seq] = true
		}
	}
	return gone
}

// set is a list sorted, each once, without empty ones; nil when nothing is left.
func set(list []string) []string {
	out := slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == "" })
	slices.Sort(out)
	if out = slices.Compact(out); len(out) == 0 {
		return nil
	}
	return out
}
