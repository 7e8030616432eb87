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
	// PairDraws is how many are tried of each two faults, where single ones tell
	// nothing; 0 tries none.
	PairDraws int
}

// Bench is a library, and what came of its machines.
type Bench struct {
	lib     *tree.Library
	options Options
	stocks  map[string]*stock // by system
	ways    names
	tests   names

	singles, pairs []*batch
	paired         bool // pairs are made
}

// batch is the machines of one unit, and what came of each.
type batch struct {
	prove.Unit
	numbers []int
	trials  []trial
}

// trial is what came of one machine.
type trial struct {
	class   prove.Class
	minutes float64
	ways    bits // that steps were left by
	figures []figure
	judged  []judgement
}

// NewBench walks the machines of single faults, and of none, with the library as
// it is. The library must have loaded without issues.
func NewBench(lib *tree.Library, o Options) (*Bench, error) {
	b := &Bench{lib: lib, options: o, stocks: map[string]*stock{}, ways: names{}, tests: names{}}
	plan, err := prove.NewPlan(lib, prove.Options{Draws: o.Draws, Seed: o.Seed})
	if err != nil {
		return nil, err
	}
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		if sys := lib.Systems[id]; sys.Circuit != nil {
			maker, err := plan.Simulated(sys)
			if err != nil {
				return nil, err
			}
			b.stocks[id] = newStock(sys, maker)
		}
	}
	units := plan.Units()
	for i := range units {
		if len(units[i].Faults) == 0 {
			units[i].Draws = o.Draws
		}
	}
	b.singles, err = b.walk(plan, units)
	return b, err
}

// pairUnits walks the machines with two faults, when they are first needed.
func (b *Bench) pairUnits() ([]*batch, error) {
	if b.paired || b.options.PairDraws == 0 {
		return b.pairs, nil
	}
	plan, err := prove.NewPlan(b.lib, prove.Options{Draws: b.options.PairDraws, Seed: b.options.Seed, Pairs: true})
	if err != nil {
		return nil, err
	}
	b.pairs, err = b.walk(plan, plan.Units())
	b.paired = err == nil
	return b.pairs, err
}

// makers gives machines of the stock to whatever library asks.
func (b *Bench) makers(sys *tree.System) (prove.Maker, error) {
	s := b.stocks[sys.ID]
	if s == nil {
		return nil, fmt.Errorf("system %s has no circuit", sys.ID)
	}
	return s, nil
}

// walk takes the machines of units through the library's own trees.
func (b *Bench) walk(plan *prove.Plan, units []prove.Unit) ([]*batch, error) {
	trier := prove.NewTrier(plan, b.makers)
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
	out := trial{class: t.Class, minutes: t.Minutes}
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
