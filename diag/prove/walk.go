package prove

import (
	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// mostMoves is how many answers and pieces of work a walk may take before it is
// said not to end. The shipped systems have fewer than 150 tests.
const mostMoves = 300

// run is one machine taken through one tree.
type run struct {
	plan    *Plan
	reach   *reach
	machine Machine
	events  []job.Event
	facts   job.Facts
	pos     walk.Position
	// where is walk.Ahead, which does without the results that only the end and
	// the notes of a trace need, or walk.Where.
	where func(*tree.Library, job.Facts) walk.Position

	moves   int
	clock   clock
	taken   map[string]int  // how often each test was taken
	before  map[string]bool // faults there when it came in
	slipped map[string]bool // tests whose latest answer is a slip
	endless bool
	worked  bool     // work was done to the machine: it is not what it was
	said    []spoken // at each verdict: before any repair, and after each
	err     error    // the machine could not be worked out
	// gone is called with each way through the tree that was gone to its end or
	// to a piece of work.
	gone  func(pos walk.Position, work string)
	trail []walk.Visit
}

// take takes a machine through the tree to the verdict. With notes, every
// position has its results. With repairs, what is found is repaired, and the walk
// goes on until nothing more is found.
func take(p *Plan, r *reach, m Machine, how manner, gone func(walk.Position, string)) (*run, error) {
	before, err := m.Present()
	if err != nil {
		return nil, err
	}
	w := &run{
		plan: p, reach: r, machine: m, clock: newClock(r.system),
		taken: map[string]int{}, slipped: map[string]bool{}, before: set(before), gone: gone,
		where: walk.Ahead,
	}
	if how.notes {
		w.where = walk.Where
	}
	w.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: r.system.ID, Complaint: complaintOf(r.tree.ID), Celsius: Celsius, Meter: p.meter, Digest: p.lib.Digest,
		Label: r.system.UsualLabel(Celsius), // simulated machines have their labels read
	}})
	for w.toVerdict() && how.repairs && w.repair() {
	}
	if w.err != nil {
		return nil, w.err
	}
	w.gone(w.pos, "")
	return w, nil
}

// manner is how a machine is walked.
type manner struct {
	notes   bool // every position has its results
	repairs bool // what is found is repaired, and the walk goes on
}

// toVerdict goes on until nothing is left to ask, and keeps what is said then.
// False: the walk has no end, or the machine can't be worked out.
func (w *run) toVerdict() bool {
	for w.step() {
		w.moves++
		if w.moves > mostMoves {
			w.endless = true
			break
		}
	}
	if w.err != nil {
		return false
	}
	w.pos = walk.Where(w.plan.lib, w.facts)
	w.endless = w.endless || w.pos.Loop
	now, err := w.machine.Present()
	if w.fails(err) {
		return false
	}
	w.said = append(w.said, spoken{pos: w.pos, now: set(now)})
	return !w.endless
}

func (w *run) add(e job.Event) {
	e.Seq = int64(len(w.events)) + 1
	w.events = append(w.events, e)
}

// step gives one answer or does one piece of work; false: the walk is over.
// Dangers and make-safe items stand in front of the next test in the position
// and change nothing in the route, so they are not answered.
func (w *run) step() bool {
	var err error
	if w.facts, err = job.Fold(w.events); w.fails(err) {
		return false
	}
	w.pos = w.where(w.plan.lib, w.facts)
	w.reroute()
	switch {
	case len(w.pos.Services) > 0: // nothing electrical
		for _, e := range walk.LeaveOut(w.pos) {
			w.add(e)
		}
		return true
	case walk.AskedInVain(w.pos, w.facts):
		return false
	case w.pos.Test != nil:
		return w.ask(w.pos.Test)
	case w.pos.Work != nil:
		return w.work()
	}
	return false
}

// reroute notices that an answer led the walk another way than it had gone.
func (w *run) reroute() {
	if n := len(w.trail); n > 0 && (len(w.pos.Trail) < n || w.pos.Trail[n-1] != w.trail[n-1]) {
		was := w.pos
		was.Trail = w.trail
		w.gone(was, "")
	}
	w.trail = w.pos.Trail
}

// ask asks the machine and records what it answers.
func (w *run) ask(test *tree.Test) bool {
	w.clock.test(test)
	a, err := w.machine.Take(test, w.hand(test))
	if w.fails(err) {
		return false
	}
	w.taken[test.ID]++
	w.slipped[test.ID] = a.Slipped
	w.add(a.event(test))
	return true
}

func (w *run) hand(test *tree.Test) Hand {
	o := w.plan.options
	return Hand{Meter: w.plan.meter, Slip: o.Slip, Untaken: o.Untaken, Again: w.taken[test.ID]}
}

// fails keeps an error, which ends the walk.
func (w *run) fails(err error) bool {
	w.err = err
	return err != nil
}

// BelowNothing says whether a reading is one that the tech is asked about: a simulated one
// has the leads right, and stands by it.
func BelowNothing(r measure.Reading) bool { return r.Kind == measure.Number && r.Value < 0 }

func (a Answer) event(test *tree.Test) job.Event {
	switch {
	case a.Reading != nil:
		return job.Event{Kind: job.KindRead, Read: &job.Read{Test: test.ID, Reading: *a.Reading, Sure: BelowNothing(*a.Reading)}}
	case a.Choice != "":
		return job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test.ID, Choice: a.Choice}}
	}
	return job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test.ID, Why: a.Cant}}
}

// work does the piece of work that the walk waits for.
func (w *run) work() bool {
	step := w.plan.lib.Trees[w.pos.Tree].Step(w.pos.Step)
	w.gone(w.pos, w.pos.Work.ID)
	w.trail = nil
	w.clock.work(w.pos.Work)
	w.worked = true
	if w.fails(w.machine.Do(w.pos.Work.ID)) {
		return false
	}
	w.add(job.Event{Kind: job.KindDone, Done: &job.Done{Work: w.pos.Work.ID, Stales: w.pos.System.StaledBy(step)}})
	return true
}

func set(ids []string) map[string]bool {
	out := map[string]bool{}
	for _, id := range ids {
		out[id] = true
	}
	return out
}
