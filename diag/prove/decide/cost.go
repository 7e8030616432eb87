package decide

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"benchlead/diag/benchtime"
	"benchlead/diag/job"
	"benchlead/diag/prove"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Way is a way of working: how the tests are chosen, and when one stops.
type Way string

// The ways of working on a machine.
const (
	// BySuspects is Solve: the first offer, until one suspect is sure.
	BySuspects Way = "suspects"
	// ByTrees walks the trees of the complaint to their verdict, before any repair.
	ByTrees Way = "trees"
	// ByFirstFind stops as soon as the trees find anything, as a hand in a hurry would.
	ByFirstFind Way = "trees, to the first find"
	// ByRepairs repairs what the trees find and goes on as they say, until they find
	// nothing more. Minutes at the repair itself are not counted, those of its check
	// readings are.
	ByRepairs Way = "trees, on after repairs"
)

// Ways are those that are compared, the first with each of the others.
var Ways = []Way{BySuspects, ByTrees, ByFirstFind, ByRepairs}

// comeback is the minutes on the bench, 1,800 s, that a machine costs when it comes
// back: it is taken in, taken apart and tested again. Judgement, no source.
const comeback = 30

// doubles is the share of machines with two faults that come together, and slips
// that of answers that are chance: judgement.
const (
	doubles = 0.15
	slips   = 0.01
)

// Done is what came of one case, worked on in one way.
type Done struct {
	Case
	Present []string // faults there when it came in, those that others bring about too
	Named   []string // in the order of the system
	Tests   int
	Minutes float64
}

// Exact says whether all that was put in is named, and nothing that is not there: a
// fault that another brings about (a fuse blown by a chafed wire) may be named.
func (d Done) Exact() bool {
	return !d.Comeback() && !slices.ContainsFunc(d.Named, func(f string) bool {
		return !slices.Contains(d.Faults, f) && !slices.Contains(d.Present, f)
	})
}

// Comeback says whether something that was put in is not named. A good part that is
// named beside is dear, but brings no machine back.
func (d Done) Comeback() bool {
	return slices.ContainsFunc(d.Faults, func(f string) bool { return !slices.Contains(d.Named, f) })
}

// Cost is the minutes, with those of a comeback.
func (d Done) Cost() float64 {
	if d.Comeback() {
		return d.Minutes + comeback
	}
	return d.Minutes
}

// CostRow is what came of one way of working in one system.
type CostRow struct {
	System string
	Way    Way
	Done   []Done // by case; all rows of a system have the same cases
}

// Count is how many cases are so.
func (r CostRow) Count(is func(Done) bool) int {
	n := 0
	for _, d := range r.Done {
		if is(d) {
			n++
		}
	}
	return n
}

// Mean is the average over the cases; 0 without any.
func (r CostRow) Mean(of func(Done) float64) float64 {
	sum := 0.0
	for _, d := range r.Done {
		sum += of(d)
	}
	return sum / float64(cmp.Or(len(r.Done), 1))
}

// Less is by how many minutes a machine costs less than in another row of the same
// cases, with two standard errors of the mean of the pairs.
func (r CostRow) Less(other CostRow) (minutes, within float64) {
	var by CostRow
	for i, d := range r.Done {
		by.Done = append(by.Done, Done{Minutes: other.Done[i].Cost() - d.Cost()})
	}
	minutes = by.Mean(Done.Cost)
	squares := by.Mean(func(d Done) float64 { return (d.Minutes - minutes) * (d.Minutes - minutes) })
	return minutes, 2 * math.Sqrt(squares/float64(max(len(r.Done)-1, 1)))
}

// Cost has the suspects and the trees of one system work on the same machines, as
// many as s.Cases. The system must have a circuit.
func Cost(lib *tree.Library, sys *tree.System, s Setting) ([]CostRow, error) {
	b, err := newBench(lib, sys, s)
	if err != nil {
		return nil, err
	}
	b.options.Slip = slips
	cases, err := mixed(b.maker, sys, b.options, s.Cases)
	if err != nil {
		return nil, err
	}
	return b.rows(cases)
}

// mixed are n cases as they come in: each fault as often as it is common, and two
// that come together in so many of a hundred. A fault of which few machines are
// complained of brings as few.
func mixed(maker prove.Maker, sys *tree.System, o Options, n int) ([]Case, error) {
	two := int(math.Round(doubles * float64(n)))
	if len(Double.of(sys)) == 0 {
		two = 0
	}
	out, err := coming(maker, sys, Single.of(sys), o, n-two)
	if err != nil {
		return nil, err
	}
	more, err := coming(maker, sys, Double.of(sys), o, two)
	return append(out, more...), err
}

// bench is what all ways of working share.
type bench struct {
	lib     *tree.Library
	sys     *tree.System
	maker   prove.Maker
	clouds  *clouds
	options Options
}

// newBench makes one whose cases are of another seed than its clouds.
func newBench(lib *tree.Library, sys *tree.System, s Setting) (bench, error) {
	b := bench{lib: lib, sys: sys, options: Options{Seed: s.Seed + 1, Meter: lib.Instruments(prove.BenchMeter)}}
	plan, err := prove.NewPlan(lib, prove.Options{Draws: 1})
	if err != nil {
		return b, err
	}
	if b.maker, err = plan.Simulated(sys); err != nil {
		return b, err
	}
	b.clouds, err = newClouds(sys, suspect.Options{Seed: s.Seed, Machines: s.Machines, Meter: b.options.Meter})
	return b, err
}

func (b bench) rows(cases []Case) ([]CostRow, error) {
	var out []CostRow
	for _, way := range Ways {
		row := CostRow{System: b.sys.ID, Way: way}
		for _, c := range cases {
			d, err := b.work(c, way)
			if err != nil {
				return nil, fmt.Errorf("%s, machine %d, %s: %w", c.Name(), c.Draw.Number, way, err)
			}
			row.Done = append(row.Done, d)
		}
		out = append(out, row)
	}
	return out, nil
}

// work is one case in one way, on a machine that nobody has touched.
func (b bench) work(c Case, way Way) (Done, error) {
	m, err := b.maker.Build(c.Draw)
	if err != nil {
		return Done{}, err
	}
	d := Done{Case: c}
	if d.Present, err = m.Present(); err != nil {
		return d, err
	}
	if way != BySuspects {
		w := newWalker(b, c, m, way)
		if err := w.toTheEnd(); err != nil {
			return d, err
		}
		d.Tests, d.Minutes = w.tests, w.minutes
		d.Named, err = w.named(d.Present)
		return d, err
	}
	cloud, err := b.clouds.of(c.Complaint)
	if err != nil {
		return d, err
	}
	o, err := Solve(c, cloud, b.sys, b.maker, b.options)
	d.Named, d.Tests, d.Minutes = o.Named.Faults, len(o.Taken), o.Minutes
	return d, err
}

// mostMoves is how many answers and pieces of work a walk may take, and mostRepairs
// how often a machine is repaired.
const (
	mostMoves   = 300
	mostRepairs = 3
)

// walker takes one machine through the trees of its complaint. Package prove does the
// same for a tree alone; here the way begins at the complaint, as the suspects' does.
type walker struct {
	bench
	way     Way
	machine prove.Machine
	access  *benchtime.Access
	events  []job.Event
	pos     walk.Position
	taken   map[string]int
	found   map[string]bool // at this verdict or one before
	fixed   map[string]bool // put right by a repair, so no work of the walk
	tests   int
	minutes float64
}

func newWalker(b bench, c Case, m prove.Machine, way Way) *walker {
	w := &walker{
		bench: b, way: way, machine: m, access: benchtime.New(b.sys),
		taken: map[string]int{}, found: map[string]bool{}, fixed: map[string]bool{},
	}
	w.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: b.sys.ID, Complaint: c.Complaint, Celsius: prove.Celsius, Meter: b.options.Meter, Digest: b.lib.Digest,
		Label: b.sys.UsualLabel(prove.Celsius),
	}})
	return w
}

func (w *walker) add(e job.Event) {
	e.Seq = int64(len(w.events)) + 1
	w.events = append(w.events, e)
}

// toTheEnd walks to the verdict, and on after repairs where that is the way.
func (w *walker) toTheEnd() error {
	for repairs := 0; ; repairs++ {
		for range mostMoves {
			if on, err := w.step(); err != nil {
				return err
			} else if !on {
				break
			}
		}
		for _, f := range w.pos.Verdict.Found {
			w.found[f.Fault.ID] = true
		}
		if w.way != ByRepairs || repairs == mostRepairs {
			return nil
		}
		if on, err := w.repair(); err != nil || !on {
			return err
		}
	}
}

// step takes one test or does one piece of work; false: there is nothing to do.
// Dangers and what makes safe stand before the next test and change no route.
func (w *walker) step() (bool, error) {
	facts, err := job.Fold(w.events)
	if err != nil {
		return false, err
	}
	w.pos = walk.Ahead(w.lib, facts)
	switch {
	case w.way == ByFirstFind && len(w.pos.Verdict.Found) > 0:
		return false, nil
	case len(w.pos.Services) > 0: // nothing electrical, and no minute of finding a fault
		for _, e := range walk.LeaveOut(w.pos) {
			w.add(e)
		}
		return true, nil
	case walk.AskedInVain(w.pos, facts):
		return false, nil
	case w.pos.Test != nil:
		return true, w.ask(w.pos.Test)
	case w.pos.Work != nil:
		work := w.pos.Work.ID
		w.minutes += w.pos.Work.Minutes
		stales := w.pos.System.StaledBy(w.lib.Trees[w.pos.Tree].Step(w.pos.Step))
		w.add(job.Event{Kind: job.KindDone, Done: &job.Done{Work: work, Stales: stales}})
		return true, w.machine.Do(work)
	}
	return false, nil
}

func (w *walker) ask(test *tree.Test) error {
	w.tests++
	w.minutes += w.access.Take(test)
	a, err := w.machine.Take(test, prove.Hand{Meter: w.options.Meter, Slip: w.options.Slip, Again: w.taken[test.ID]})
	w.taken[test.ID]++
	switch {
	case a.Reading != nil:
		w.add(job.Event{Kind: job.KindRead, Read: &job.Read{Test: test.ID, Reading: *a.Reading, Sure: prove.BelowNothing(*a.Reading)}})
	case a.Choice != "":
		w.add(job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test.ID, Choice: a.Choice}})
	default:
		w.add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test.ID, Why: a.Cant}})
	}
	return err
}

// repair does the shortest repair of each fault of the verdict; false: there is
// none. A part is changed whether it was bad or not.
func (w *walker) repair() (bool, error) {
	repairs := prove.RepairsFor(w.lib, w.sys.ID, w.pos.Verdict.Found)
	if len(repairs) == 0 {
		return false, nil
	}
	var ids []string
	for _, r := range repairs {
		ids = append(ids, r.ID)
	}
	w.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: ids}})
	for _, r := range repairs {
		w.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: r.ID, Stales: walk.StaledBy(w.lib, w.sys, r)}})
		for _, f := range r.Clears {
			w.fixed[f] = true
		}
		if err := w.machine.Mend(r.Clears...); err != nil {
			return false, err
		}
	}
	return true, nil
}

// named is what was found, and what the walk's own work has put right: a battery
// that it had charged is no longer flat, and does not come back for that.
func (w *walker) named(before []string) ([]string, error) {
	now, err := w.machine.Present()
	var out []string
	for _, f := range w.sys.Faults {
		worked := slices.Contains(before, f.ID) && !slices.Contains(now, f.ID) && !w.fixed[f.ID]
		if w.found[f.ID] || worked {
			out = append(out, f.ID)
		}
	}
	return out, err
}

// CostText writes the rows for people.
func CostText(w io.Writer, rows []CostRow) error {
	var err error
	line := func(format string, args ...any) {
		if err == nil {
			_, err = fmt.Fprintf(w, format+"\n", args...)
		}
	}
	line("%-20s %-26s %6s %7s %7s %7s %6s %6s", "system", "way", "n", "exact", "back", "tests", "min", "cost")
	for _, r := range rows {
		n := len(r.Done)
		line("%-20s %-26s %6d %5.1f %% %5.1f %% %7.1f %6.1f %6.1f", r.System, r.Way, n,
			100*part(r.Count(Done.Exact), n), 100*part(r.Count(Done.Comeback), n),
			r.Mean(func(d Done) float64 { return float64(d.Tests) }), r.Mean(func(d Done) float64 { return d.Minutes }), r.Mean(Done.Cost))
	}
	line("")
	line("cost: minutes on the bench, with %d for each machine that comes back", comeback)
	var first CostRow
	for _, r := range rows {
		if r.Way == Ways[0] {
			first = r
			continue
		}
		if less, within := first.Less(r); less >= 0 {
			line("%s: %s cost %.1f minutes (+- %.1f) less than %s", r.System, first.Way, less, within, r.Way)
		} else {
			line("%s: %s cost %.1f minutes (+- %.1f) more than %s", r.System, first.Way, -less, within, r.Way)
		}
	}
	return err
}
