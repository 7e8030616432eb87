package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// timings is how often a time is taken: the slowest counts.
const timings = 3

// Watch is the stop-watch of a test that is timed. It is no part of the log: a
// running time is lost when the program ends. Times are microseconds.
type Watch struct {
	test  string
	From  int64 // when it was started, by the bench's ticks
	wall  int64 // and by its clock
	Runs  bool
	times []int64
}

// slept is how far the clock may run ahead of the ticks while a time is taken,
// microseconds. Ticks stand still while a computer sleeps: a time would be too short.
const slept = 200_000

// Times are the times taken, as a watch shows them.
func (w Watch) Times() []string {
	var out []string
	for _, t := range w.times {
		out = append(out, seconds(t))
	}
	return out
}

// Slowest is the longest of the times; empty before the first.
func (w Watch) Slowest() string {
	if len(w.times) == 0 {
		return ""
	}
	return seconds(slices.Max(w.times))
}

// seconds writes microseconds as a watch shows them, to the hundredth.
func seconds(us int64) string {
	hundredths := (us + 5000) / 10_000
	return fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100)
}

// Timed says whether the test that is asked now is timed with a watch.
func (s *Session) Timed() bool {
	p := s.Position()
	return Asked(p.Stage) && timedTest(p.Test)
}

func timedTest(t *tree.Test) bool { return t != nil && t.Function == measure.Seconds }

// Watch is the watch of the test that is asked now.
func (s *Session) Watch() Watch {
	p := s.Position()
	if !Asked(p.Stage) || p.Test == nil || p.Test.ID != s.watch.test {
		return Watch{}
	}
	return s.watch
}

// wall is the clock to hold ticks against; nothing where they are the clock's own.
func (b Bench) wall() int64 {
	if b.Steady == nil {
		return 0
	}
	return b.Now()
}

// startWatch starts the watch. A fourth time begins anew.
func (s *Session) startWatch() (Reply, error) {
	w := s.Watch()
	switch {
	case !s.Timed():
		return Reply{}, errors.New("there is nothing to be timed here; nothing was recorded")
	case w.Runs:
		return Reply{}, errors.New("the watch runs already; an empty line or \"stop\" stops it")
	case len(w.times) == timings:
		w = Watch{}
	}
	w.test, w.From, w.wall, w.Runs = s.Position().Test.ID, s.bench.Ticks(), s.bench.wall(), true
	s.watch = w
	return Reply{Said: []string{"The watch runs. Enter or \"stop\" when it stands still."}}, nil
}

// stopWatch stops it, and says what to type. Nothing is recorded by it.
func (s *Session) stopWatch() (Reply, error) {
	w := s.Watch()
	if !w.Runs {
		return Reply{}, errors.New("the watch does not run; \"time\" starts it")
	}
	took := s.bench.Ticks() - w.From
	w.Runs = false
	s.watch = w
	switch {
	case took < 0:
		return Reply{}, errors.New("the computer's clock was set back meanwhile: time it again")
	case s.bench.Steady != nil && s.bench.wall()-w.wall-took > slept:
		return Reply{}, errors.New("the computer slept meanwhile, or its clock was set: time it again")
	}
	s.watch.times = append(slices.Clone(w.times), took)
	return Reply{Said: []string{s.watchWords()}}, nil
}

// watchWords says the times so far, and which one counts. They are raw: what the
// hand adds is in the limits.
func (s *Session) watchWords() string {
	w := s.watch
	n := len(w.times)
	said := fmt.Sprintf("%s s. ", seconds(w.times[n-1]))
	if n > 1 {
		said = fmt.Sprintf("%s. Slowest of %d: %s s. ", strings.Join(w.Times(), ", "), n, w.Slowest())
	}
	if n < timings {
		return said + fmt.Sprintf("Time it %d times in all, then enter the slowest as the watch shows it.", timings)
	}
	return said + "Enter " + w.Slowest() + " as the watch shows it."
}

// lostTime says that a time that was running is not in the log. Nobody can know
// whether one was.
func lostTime(p walk.Position) []string {
	if (Asked(p.Stage) || p.Stage == walk.AtSafe) && timedTest(p.Test) && p.Results[p.Test.ID].Mark == walk.Unknown {
		return []string{"No time was kept. Time it from the beginning."}
	}
	return nil
}
