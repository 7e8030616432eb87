package ui

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/repair"
	"benchlead/diag/report"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Bench is what a session works with. Now gives microseconds since 1970 UTC;
// the program owns the clock, tests set it.
type Bench struct {
	Library *tree.Library
	// Open opens a system of a Library that has only heads; nil: it has all of them.
	// It gives nil for a system that there is none of.
	Open   func(system string) *tree.Library
	Store  job.Store
	Prices *repair.PriceBook // nil: paths without money
	// PriceNote is said wherever prices are shown; for invented ones.
	PriceNote string
	Meters    []string // the shop's, by id, the usual one first; none: not said
	Tools     []string // the shop's, in words; none: not said
	Now       func() int64
	// Steady gives microseconds by a clock that nobody sets, for times that are taken;
	// nil: Now's.
	Steady   func() int64
	Suspects Suspects // nil: no suspects
}

// Ticks are microseconds for a watch. Only the difference of two means something.
func (b Bench) Ticks() int64 {
	if b.Steady != nil {
		return b.Steady()
	}
	return b.Now()
}

// Of is the trees to work on a system with.
func (b Bench) Of(system string) *tree.Library {
	if b.Open != nil {
		if lib := b.Open(system); lib != nil {
			return lib
		}
	}
	return b.Library
}

// Session is one job being worked on. It is not safe for concurrent use.
type Session struct {
	bench  Bench
	id     int64
	events []job.Event
	facts  job.Facts
	pos    walk.Position
	paths  repair.Offers

	shelves    []job.Shelved // the parts bin as it was last read
	binTrouble error         // it could not be read

	asked   string        // a test the tech asked to take out of turn
	aim     repair.Aim    // what the ways to repair are ranked by; none: the usual
	serving string        // a service that was begun
	closing job.Outcome   // the job is to be closed with it once all is put back
	because string        // what was said of why, meanwhile
	endings []job.Outcome // the outcomes as "close" alone has just shown them
	sure    *Action       // a close that waits for yes
	weighed weighed       // the suspects
	counted counted       // what the offers were worked out with
	pending *pending      // a value that was questioned and not yet recorded
	watch   Watch
}

// pending is a reading that looked impossible, waiting for "keep" or for "yes" to what
// was meant.
type pending struct {
	test    string
	reading measure.Reading
	doubt   doubt
}

// Begin records the intake as a new job.
func Begin(ctx context.Context, bench Bench, in job.Intake) (*Session, error) {
	in.Digest = bench.Library.Digest
	if bench.Library.Systems[in.System] == nil {
		return nil, fmt.Errorf("there is no system %q; \"benchlead trees\" lists them", in.System)
	}
	first := []job.Event{{At: bench.Now(), Kind: job.KindIntake, Intake: &in}}
	id, err := bench.Store.Create(ctx, first)
	if err != nil {
		return nil, err
	}
	s := &Session{bench: bench, id: id}
	return s, s.reload(ctx)
}

// Resume opens a job that was put aside. Make-safe must be confirmed again, and
// when the trees are not those the job was last worked with, what changed in
// the findings is said and recorded.
func Resume(ctx context.Context, bench Bench, id int64) (*Session, []string, error) {
	s := &Session{bench: bench, id: id}
	if err := s.reload(ctx); err != nil {
		return nil, nil, err
	}
	if s.facts.Closed != nil {
		return s, nil, nil
	}
	events := []job.Event{{Kind: job.KindOpened}}
	var said []string
	if s.facts.Digest != bench.Library.Digest {
		said = s.changes()
		events = append(events, job.Event{
			Kind:  job.KindTrees,
			Trees: &job.Trees{Digest: bench.Library.Digest, Changed: said},
		})
		said = append([]string{"The fault trees have changed since this job was last worked on."}, said...)
	}
	err := s.record(ctx, events...)
	return s, append(said, lostTime(s.Position())...), err
}

// changes compares the findings with those last shown.
func (s *Session) changes() []string {
	now, before := foundIDs(s.pos.Verdict), s.shown()
	out := s.differences(before, now)
	if len(out) == 0 {
		out = append(out, "The findings stay the same.")
	}
	for _, id := range s.orphans() {
		out = append(out, fmt.Sprintf("The test %s is no longer in the fault trees; its reading is kept.", id))
	}
	return out
}

// orphans are answered tests that the trees no longer have.
func (s *Session) orphans() []string {
	var out []string
	for _, id := range slices.Sorted(maps.Keys(s.facts.Answers)) {
		if s.pos.System != nil && s.pos.System.Test(id) == nil {
			out = append(out, id)
		}
	}
	return out
}

// shown are the findings as last shown, by the log.
func (s *Session) shown() []string {
	for i := len(s.events) - 1; i >= 0; i-- {
		if s.events[i].Shown != nil {
			return *s.events[i].Shown
		}
	}
	return nil
}

func foundIDs(v walk.Verdict) []string {
	out := []string{}
	for _, f := range v.Found {
		out = append(out, f.Fault.ID)
	}
	return out
}

func (s *Session) faultTitle(id string) string {
	if s.pos.System != nil {
		if f := s.pos.System.Fault(id); f != nil {
			return f.Title
		}
	}
	return id
}

// reload reads the log again and works out where the job stands.
func (s *Session) reload(ctx context.Context) error {
	events, err := s.bench.Store.Load(ctx, s.id)
	if err != nil {
		return err
	}
	return s.settle(ctx, events)
}

func (s *Session) settle(ctx context.Context, events []job.Event) error {
	facts, err := job.Fold(events)
	if err != nil {
		return err
	}
	s.events, s.facts = events, facts
	if facts.Intake != nil {
		s.bench.Library = s.bench.Of(facts.Intake.System)
	}
	s.pos = walk.Where(s.bench.Library, facts)
	if len(s.pos.Verdict.Found) > 0 {
		s.lookInBin(ctx)
	}
	s.paths = s.offer()
	s.expectSuspects()
	return nil
}

// ErrOthers says that the other bench has added to this job meanwhile.
var ErrOthers = errors.New("somebody else added to this job meanwhile; what came in is shown. Look, then answer again")

// record makes events durable, then takes them as facts. Nothing is taken
// before the store has it.
func (s *Session) record(ctx context.Context, events ...job.Event) error {
	last := s.lastSeq()
	for i := range events {
		events[i].At = s.bench.Now()
	}
	s.noteFindings(last, events)
	stored, err := s.bench.Store.Append(ctx, s.id, last, events)
	if errors.Is(err, job.ErrConflict) {
		if reload := s.reload(ctx); reload != nil {
			return reload
		}
		return ErrOthers
	}
	if err != nil {
		return err
	}
	s.pending = nil
	return s.settle(ctx, append(slices.Clone(s.events), stored...))
}

// noteFindings writes into the last event what findings it leads to, when that
// differs from what was shown before.
func (s *Session) noteFindings(last int64, events []job.Event) {
	trial := slices.Clone(s.events)
	for i, e := range events {
		e.Seq = last + int64(i) + 1
		trial = append(trial, e)
	}
	facts, err := job.Fold(trial)
	if err != nil || len(events) == 0 {
		return
	}
	found := foundIDs(walk.Where(s.bench.Library, facts).Verdict)
	if !slices.Equal(found, s.shown()) {
		events[len(events)-1].Shown = &found
	}
}

func (s *Session) lastSeq() int64 {
	if len(s.events) == 0 {
		return 0
	}
	return s.events[len(s.events)-1].Seq
}

// ID is the job's number in the record.
func (s *Session) ID() int64 { return s.id }

// Facts are what the log amounts to.
func (s *Session) Facts() job.Facts { return s.facts }

// Events is the log.
func (s *Session) Events() []job.Event { return slices.Clone(s.events) }

// Library is the trees in use.
func (s *Session) Library() *tree.Library { return s.bench.Library }

// Offer is the repair paths for what has been found.
func (s *Session) Offer() repair.Offers { return s.paths }

// Position is where the job stands, with the test that the tech asked for in
// place of the walk's own.
func (s *Session) Position() walk.Position {
	if s.closing != "" && s.pos.Stage != walk.AtDanger && s.pos.System != nil {
		if asks := walk.PutBack(s.bench.Library, s.pos.System, s.facts, s.closing); len(asks) > 0 {
			p := s.pos
			p.Stage, p.Test, p.Work, p.Repair, p.Term, p.Safe = walk.AtSafe, nil, nil, nil, nil, asks
			p.Lines, p.Estimate, p.Services = nil, nil, nil
			return p
		}
	}
	if s.asked == "" || s.pos.Stage == walk.AtDanger {
		return walk.BeforeService(s.bench.Library, s.facts, s.pos, s.serving)
	}
	return walk.Instead(s.bench.Library, s.facts, s.pos, s.asked)
}

// Document is the job's report.
func (s *Session) Document() (report.Document, error) {
	s.countIn()
	doc, err := report.Build(s.bench.Library, s.id, s.events, s.paths)
	if err == nil {
		doc.Weighed(s.Counsel())
	}
	if err == nil && s.bench.PriceNote != "" && doc.Work == nil && len(doc.Offers) > 0 {
		doc.MoneyNote = s.bench.PriceNote
	}
	return doc, err
}

// Look opens a job only to read it: nothing is recorded.
func Look(ctx context.Context, bench Bench, id int64) (*Session, error) {
	s := &Session{bench: bench, id: id}
	return s, s.reload(ctx)
}
