package report

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Build makes the document of a job from its whole log. id is the job's number;
// offers are what could be done, shown while no path is chosen. What a closed
// job concluded is taken from its record, so that other trees don't rewrite it.
// What the library no longer has is named by its id, a whole system too. The
// error says that the log is damaged, or has no intake.
func Build(lib *tree.Library, id int64, events []job.Event, offers repair.Offers) (Document, error) {
	s, err := newStory(lib, events)
	if err != nil {
		return Document{}, fmt.Errorf("no report of job %d: %w", id, err)
	}
	d := Document{Job: id, Begun: dayOf(events[0].At), Last: dayOf(events[len(events)-1].At)}
	for _, e := range events {
		if e.Kind == job.KindClosed {
			d.Ended = dayOf(e.At)
		}
	}
	s.intake(&d)
	d.Corrected = corrections(s.system, events)
	s.verdict(&d)
	s.readings(&d)
	s.proof(&d)
	s.work(&d, offers)
	s.asked(&d)
	s.bin(&d)
	s.safety(&d)
	s.cautions(&d)
	s.close(&d)
	s.stand(&d)
	d.Phone = phone(d)
	d.Defer = deferrals()
	d.fill()
	return d, nil
}

// dayOf is a day as the log has it: at is microseconds since 1970 UTC.
func dayOf(at int64) string { return time.UnixMicro(at).UTC().Format(time.DateOnly) }

// story is a job as it went: chapters are the spans between things that were
// done to the machine.
type story struct {
	lib      *tree.Library
	system   *tree.System
	facts    job.Facts
	values   formula.Values // what limits may know of the machine
	now      walk.Position  // at the end
	before   walk.Position  // at the end of the last chapter before a repair
	recorded []string       // found, as the log last showed before a repair; nil: not logged
	chapters []chapter
	paths    []path
	repaired bool
	lost     bool // the library has no such system any more
}

type chapter struct {
	after   string // what was done before it; empty for the first
	from    int64  // the event that did it
	mended  bool   // something was repaired before it
	results map[string]walk.Result
}

func newStory(lib *tree.Library, events []job.Event) (*story, error) {
	facts, err := job.Fold(events)
	if err != nil {
		return nil, err
	}
	if facts.Intake == nil {
		return nil, errors.New("it has no intake")
	}
	s := &story{lib: lib, system: lib.Systems[facts.Intake.System], facts: facts, paths: paths(events)}
	if s.system == nil {
		s.lost, s.system = true, &tree.System{Title: source.CleanLine(facts.Intake.System)}
	}
	s.values, _ = walk.Values(s.system, *facts.Intake)
	s.now = walk.Where(lib, facts)
	s.before = s.now
	return s, s.tell(events)
}

// tell cuts the log into chapters where something was done to the machine.
func (s *story) tell(events []job.Event) error {
	gone := undone(events)
	after, from, mended := "", int64(0), false
	for i, e := range events {
		if gone[e.Seq] || e.Kind != job.KindDone && e.Kind != job.KindTicked {
			continue
		}
		facts, err := job.Fold(upTo(events, i))
		if err != nil {
			return err
		}
		facts.Intake = s.facts.Intake // what was put right later was so from the beginning
		position := walk.Where(s.lib, facts)
		s.chapters = append(s.chapters, chapter{after, from, mended, position.Results})
		if e.Kind == job.KindTicked && !s.repaired {
			s.repaired, s.before, s.recorded = true, position, lastShown(events[:i])
		}
		after, from, mended = s.doneTitle(e), e.Seq, s.repaired
	}
	s.chapters = append(s.chapters, chapter{after, from, mended, s.now.Results})
	return nil
}

func undone(events []job.Event) map[int64]bool {
	gone := map[int64]bool{}
	for _, e := range events {
		if e.Undone != nil {
			gone[e.Undone.Seq] = true
		}
	}
	return gone
}

// upTo is the log before event i, with whatever was taken back later taken
// back.
func upTo(events []job.Event, i int) []job.Event {
	log := slices.Clone(events[:i])
	for _, e := range events[i:] {
		if e.Undone != nil && e.Undone.Seq <= int64(i) {
			seq := int64(len(log)) + 1
			log = append(log, job.Event{Seq: seq, At: e.At, Kind: job.KindUndone, Undone: &job.Undone{Seq: e.Undone.Seq}})
		}
	}
	return log
}

func lastShown(events []job.Event) []string {
	for _, e := range slices.Backward(events) {
		if e.Shown != nil {
			return *e.Shown
		}
	}
	return nil
}

func (s *story) doneTitle(e job.Event) string {
	if e.Done != nil {
		return s.workTitle(e.Done.Work)
	}
	return s.repairTitle(e.Ticked.Repair)
}

func (s *story) workTitle(id string) string {
	if w := s.system.FindWork(id); w != nil {
		return w.Title
	}
	return source.CleanLine(id)
}

func (s *story) repairTitle(id string) string {
	if r := s.lib.Repairs[id]; r != nil {
		return r.Title
	}
	return source.CleanLine(id)
}

func (s *story) faultTitle(id string) string {
	if f := s.system.Fault(id); f != nil {
		return f.Title
	}
	return source.CleanLine(id)
}
