package app

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"github.com/spf13/cobra"

	"benchlead/diag/prove"
)

// proofOptions are the options of the verb as typed.
type proofOptions struct {
	draws       int
	seed        uint64
	pairs, json bool
	suspects    bool
	slips       float64
	untaken     float64
	shift       float64

	against, store        string
	drawsTyped, seedTyped bool
}

// The machines for each fault, unless --draws says otherwise: 300 show what
// happens to one machine in a hundred 19 times out of 20. Pairs are many.
const (
	usualDraws     = 300
	usualPairDraws = 20
)

func (p *program) proveVerb() *cobra.Command {
	var o proofOptions
	cmd := &cobra.Command{
		Use:   "prove [TREE...] | prove --suspects [SYSTEM...]",
		Short: "Let the fault trees find faults in simulated machines, and show where they fail",
		Long: `Builds simulated machines from each system's circuit, puts one fault at a time
into them, walks the trees with what a pocket meter would show, and compares
what the trees say with what was put in. For each fault: found, found as another
that no test tells from it (group), left because a reading was too close to a
limit (close), left behind another fault (masked), missed, or wrong: a good part
condemned, or a faulty one cleared. Whatever is missed or wrong is shown step by
step, with the places in the files.

The exit status is 1 when anything is missed or wrong, when more than 5 % of the
machines with one fault (2 % of all) are left because a reading was too close to a
limit, and when a system has no circuit to be proved on.

With --suspects no tree is walked: what fits the answers of simulated machines is
weighed, the test that tells most for the minute is taken next, and what is named
in the end is compared with what was put in. The status is 1 when too little is
named rightly. Beside it stands what this costs on the bench against the trees.

With --against the figures are held against a table that --store wrote before,
and the status is 1 when one of them has become worse: fewer found, or more close,
masked, missed or wrong; minutes up by more than 2 %, or more faults left neither
found nor cleared; or when a fault or tree is in one of the two only.`,
		Example: "  benchlead prove\n  benchlead prove no-crank-key --draws 1000 --seed 7\n  benchlead prove --slips 1 --shift 15\n  benchlead prove heavy-path --pairs\n  benchlead prove --suspects\n" +
			"  benchlead prove --store figures.txt\n  benchlead prove --against figures.txt",
		RunE: func(cmd *cobra.Command, args []string) error {
			o.drawsTyped, o.seedTyped = cmd.Flags().Changed("draws"), cmd.Flags().Changed("seed")
			switch {
			case o.drawsTyped:
			case o.pairs:
				o.draws = usualPairDraws
			case o.suspects:
				o.draws = usualCloud
			}
			if o.suspects {
				return p.proveSuspects(cmd.Context(), args, o)
			}
			return p.prove(cmd.Context(), args, o)
		},
	}
	f := cmd.Flags()
	f.IntVar(&o.draws, "draws", usualDraws, "machines for each fault, 1 to 100000 (with --pairs: 20, with --suspects: 100)")
	f.Uint64Var(&o.seed, "seed", 1, "the same seed builds the same machines")
	f.BoolVar(&o.pairs, "pairs", false, "two faults at a time, and each fault beside a bypassed interlock")
	f.Float64Var(&o.slips, "slips", 0, "percent of answers that are a slip of hand or eye, 0 to 50")
	f.Float64Var(&o.untaken, "untaken", 0, "percent of tests that can't be taken on a machine, 0 to 50")
	f.Float64Var(&o.shift, "shift", 0, "percent by which what is usual is moved, up or down, 0 to 90")
	f.BoolVar(&o.suspects, "suspects", false, "let the suspects find the faults, instead of the trees")
	f.BoolVar(&o.json, "json", false, "print one JSON object")
	f.StringVar(&o.store, "store", "", "write the figures to this `file`, whole or not at all")
	f.StringVar(&o.against, "against", "", "fail when a figure is worse than in this `file`; draws and seed are taken from it")
	return cmd
}

// check says which option is out of bounds. NaN is out of all.
func (o proofOptions) check() error {
	switch {
	case o.draws < 1 || o.draws > prove.MaxDraws:
		return usage{fmt.Errorf("--draws %d: write a number from 1 to %d", o.draws, prove.MaxDraws)}
	case !(o.slips >= 0 && o.slips <= 50):
		return usage{fmt.Errorf("--slips %g: write a percentage from 0 to 50", o.slips)}
	case !(o.untaken >= 0 && o.untaken <= 50):
		return usage{fmt.Errorf("--untaken %g: write a percentage from 0 to 50", o.untaken)}
	case !(o.shift >= 0 && o.shift <= 90):
		return usage{fmt.Errorf("--shift %g: write a percentage from 0 to 90", o.shift)}
	}
	return nil
}

func (p *program) prove(ctx context.Context, trees []string, o proofOptions) error {
	if err := firstOf(o.check(), o.checkTable(trees)); err != nil {
		return err
	}
	stored, err := p.openTable(&o)
	if err != nil {
		return err
	}
	report, err := p.proof(ctx, trees, o)
	switch {
	case err != nil:
		return err
	case o.store != "":
		return p.storeTable(o.store, report)
	case o.against != "":
		c := report.Table().Against(stored.Of(trees))
		return firstOf(prove.AgainstText(p.streams.Out, report, c, o.against), c.Err(o.against))
	case o.json:
		err = p.json(report.Figures())
	default:
		err = prove.Text(p.streams.Out, report)
	}
	if err == nil && !report.Holds() {
		err = fmt.Errorf("the proof does not hold: %s", report.Fails())
	}
	return err
}

// proof proves the trees named, or all.
func (p *program) proof(ctx context.Context, trees []string, o proofOptions) (prove.Report, error) {
	lib, err := p.library()
	if err == nil {
		err = meterless(lib)
	}
	if err != nil {
		return prove.Report{}, err
	}
	const percent = 0.01
	plan, err := prove.NewPlan(lib, prove.Options{
		Trees: trees, Draws: o.draws, Seed: o.seed, Pairs: o.pairs,
		Slip: o.slips * percent, Untaken: o.untaken * percent, Shift: o.shift * percent,
	})
	if err != nil {
		return prove.Report{}, usage{err}
	}
	results, err := proveAll(ctx, plan)
	if err != nil {
		return prove.Report{}, err
	}
	return plan.Sum(results), nil
}

// proveAll runs the units on all cores. A unit's result doesn't depend on the
// others, so neither does the whole on which core had it.
func proveAll(ctx context.Context, plan *prove.Plan) ([]prove.Result, error) {
	units := plan.Units()
	loads := plan.Loads(units)
	// Machines live briefly and are many: cleaning up less often saves a quarter
	// of the time.
	const seldom = 400
	defer debug.SetGCPercent(debug.SetGCPercent(seldom))
	results := make([]prove.Result, len(units))
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(loads)) {
		all.Go(func() {
			tech := prove.NewTech(plan, plan.Simulated)
			for n := next.Add(1) - 1; int(n) < len(loads) && ctx.Err() == nil; n = next.Add(1) - 1 {
				for _, i := range loads[n] {
					results[i] = tech.Run(units[i])
				}
			}
		})
	}
	all.Wait()
	return results, ctx.Err()
}
