package rerun

import (
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/prove"
	"benchlead/diag/tree"
)

// Options say how hard a change is tried.
type Options struct {
	Seed uint64
	// Draws is how many machines are tried of each fault alone that a tree judges,
	// and of healthy machines. A few are tried first, then more.
	Draws int
	// HandDraws is how many are tried of each with tests that can't be taken, and
	// as many with answers that slip, where a sure hand tells nothing; 0 tries none.
	HandDraws int
	// PairDraws is how many are tried of each two faults, where nothing else tells;
	// 0 tries none.
	PairDraws int
}

// The hands that are not sure: one test in ten can't be taken, or one answer in
// fifty is chance.
const (
	untaken = 0.10
	slips   = 0.02
)

// Bench is a library, and what came of its machines.
type Bench struct {
	lib    *tree.Library
	worlds []*world
	ways   names
	tests  names
}

// world is one way of trying machines, and what came of those of the library.
type world struct {
	by      By
	options prove.Options
	summed  bool              // only what is wrong counts, over all faults of a tree
	stocks  map[string]*stock // by system
	units   []*batch
	walked  bool
}

// NewBench makes ready to walk machines with the library as it is. The library
// must have loaded without issues.
func NewBench(lib *tree.Library, o Options) (*Bench, error) {
	b := &Bench{lib: lib, ways: names{}, tests: names{}}
	for _, w := range []world{
		{by: Singles, options: prove.Options{Draws: o.Draws}},
		{by: Untaken, options: prove.Options{Draws: o.HandDraws, Untaken: untaken}},
		{by: Slips, options: prove.Options{Draws: o.HandDraws, Slip: slips}, summed: true},
		{by: Pairs, options: prove.Options{Draws: o.PairDraws, Pairs: true}},
	} {
		if w.options.Draws > 0 {
			w.options.Seed = o.Seed
			b.worlds = append(b.worlds, &w)
		}
	}
	return b, nil
}

// open walks the machines of a world, when they are first needed.
func (b *Bench) open(w *world) error {
	if w.walked {
		return nil
	}
	plan, err := prove.NewPlan(b.lib, w.options)
	if err != nil {
		return err
	}
	w.stocks = map[string]*stock{}
	for _, id := range slices.Sorted(maps.Keys(b.lib.Systems)) {
		if sys := b.lib.Systems[id]; sys.Circuit != nil {
			maker, err := plan.Simulated(sys)
			if err != nil {
				return err
			}
			w.stocks[id] = newStock(sys, maker)
		}
	}
	units := plan.Units()
	for i := range units {
		if len(units[i].Faults) == 0 {
			units[i].Draws = w.options.Draws
		}
	}
	w.units, err = b.walk(plan, w, units)
	w.walked = err == nil
	return err
}

// makers gives machines of the stock to whatever library asks.
func (w *world) makers(sys *tree.System) (prove.Maker, error) {
	s := w.stocks[sys.ID]
	if s == nil {
		return nil, fmt.Errorf("system %s has no circuit", sys.ID)
	}
	return s, nil
}

// walk takes the machines of units through the library's own trees.
func (b *Bench) walk(plan *prove.Plan, w *world, units []prove.Unit) ([]*batch, error) {
	trier := prove.NewTrier(plan, w.makers)
	out := make([]*batch, len(units))
	for _, load := range plan.Loads(units) {
		for _, i := range load {
			var err error
			if out[i], err = b.walkUnit(trier, units[i]); err != nil {
				return nil, fmt.Errorf("%s with %v: %w", units[i].Tree, units[i].Faults, err)
			}
		}
	}
	return slices.DeleteFunc(out, func(u *batch) bool { return len(u.numbers) == 0 }), nil
}

// batch is the machines of one unit, and what came of each.
type batch struct {
	prove.Unit
	numbers []int
	trials  []trial
}

// trial is what came of one machine.
type trial struct {
	prove.Trial      // without notes
	ways        bits // that steps were left by
	figures     []figure
	judged      []judgement
}

func (b *Bench) walkUnit(trier *prove.Trier, u prove.Unit) (*batch, error) {
	numbers, err := trier.Coming(u)
	if err != nil {
		return nil, err
	}
	out := &batch{Unit: u, numbers: numbers}
	for _, number := range numbers {
		t, err := trier.Try(u, number, true)
		if err != nil {
			return nil, err
		}
		out.trials = append(out.trials, b.noted(t))
	}
	return out, nil
}

// noted is what is kept of a trial.
func (b *Bench) noted(t prove.Trial) trial {
	out := trial{Trial: t}
	out.Notes = nil
	for w := range t.Notes.Ways {
		b.ways.add(&out.ways, w.Tree+"/"+w.Step)
		b.ways.add(&out.ways, w.Tree+"/"+w.Step+" "+w.Answer)
	}
	for _, f := range t.Notes.Figures {
		kept := figure{b.tests.number(f.Test), f.Value, f.U}
		if !slices.Contains(out.figures, kept) {
			out.figures = append(out.figures, kept)
		}
	}
	for _, j := range t.Notes.Judged {
		kept := judgement{fault: j.Fault}
		for _, test := range j.Tests {
			b.tests.add(&kept.by, test)
		}
		if !slices.ContainsFunc(out.judged, kept.is) {
			out.judged = append(out.judged, kept)
		}
	}
	return out
}

// judgement is a fault found or cleared, and the tests that speak for it.
type judgement struct {
	fault string
	by    bits
}

func (j judgement) is(other judgement) bool {
	return j.fault == other.fault && slices.Equal(j.by, other.by)
}

// figure is what a test came to, base units.
type figure struct {
	test     int
	value, u float64
}
