package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"runtime/debug"
	"slices"
	"sync"

	"benchlead/diag/prove/decide"
	"benchlead/diag/tree"
)

// The machines of each hypothesis in the clouds, as a job has them, unless --draws says
// otherwise; the cases of each world; and those of which the cost is worked out.
const (
	usualCloud = cloudMachines
	usualCases = 400
	costCases  = 120
)

// proveSuspects lets the suspects find what is wrong with simulated machines, a
// system on each core: the systems named, or those of the table they are held
// against, or all.
func (p *program) proveSuspects(ctx context.Context, systems []string, o proofOptions) error {
	switch {
	case o.pairs || o.json || o.slips != 0 || o.untaken != 0 || o.shift != 0 || o.against != "" && o.store != "":
		return usage{errors.New("--suspects has cases of its own: write only --draws, --seed, and --store or --against beside it")}
	}
	setting := decide.Setting{Machines: o.draws, Cases: usualCases, Seed: o.seed}
	stored, err := p.suspectTable(o, &setting)
	if err = firstOf(o.check(), err); err != nil {
		return err
	}
	lib, err := p.library()
	if err != nil {
		return err
	}
	if len(systems) == 0 {
		systems = stored.Systems()
	}
	for _, id := range systems {
		if lib.Systems[id] == nil {
			return usage{fmt.Errorf("there is no system %q; with --suspects write systems, and no trees", id)}
		}
	}
	rows, err := bySystem(ctx, lib, systems, func(sys *tree.System) ([]decide.Row, error) { return decide.Prove(lib, sys, setting) })
	if err != nil {
		return err
	}
	table := decide.NewTable(setting, rows)
	if o.store != "" {
		err := writeWhole(o.store, func(w io.Writer) error { return decide.WriteTable(w, table) })
		return notWritten(o.store, err)
	}
	if err := decide.Text(p.streams.Out, rows); err != nil {
		return err
	}
	if o.against != "" {
		return p.notWorse(table.Worse(stored), o.against, rows)
	}
	setting.Cases = costCases
	cost, err := bySystem(ctx, lib, systems, func(sys *tree.System) ([]decide.CostRow, error) { return decide.Cost(lib, sys, setting) })
	return firstOf(err, decide.CostText(p.streams.Out, cost), holds(rows))
}

// suspectTable reads the table of --against, and takes from it how it was made.
func (p *program) suspectTable(o proofOptions, s *decide.Setting) (decide.Table, error) {
	switch {
	case o.store != "":
		return decide.Table{}, notWritten(o.store, p.notARecord(o.store))
	case o.against == "":
		return decide.Table{}, nil
	}
	f, err := os.Open(o.against)
	if err != nil {
		return decide.Table{}, fmt.Errorf("%s can't be read: %w", o.against, err)
	}
	defer f.Close()
	table, err := decide.ReadTable(f)
	if err != nil {
		return table, fmt.Errorf("%s: %w", o.against, err)
	}
	if o.drawsTyped && o.draws != table.Machines || o.seedTyped && o.seed != table.Seed {
		return table, usage{fmt.Errorf("%s was made with --draws %d --seed %d: write these, or neither", o.against, table.Machines, table.Seed)}
	}
	*s = table.Setting
	return table, nil
}

// notWorse says what has become worse, and whether the suspects hold.
func (p *program) notWorse(worse []string, than string, rows []decide.Row) error {
	for _, w := range worse {
		fmt.Fprintln(p.streams.Out, "WORSE:", w)
	}
	if len(worse) > 0 {
		return fmt.Errorf("%d rows are worse than in %s", len(worse), than)
	}
	return holds(rows)
}

func holds(rows []decide.Row) error {
	for _, r := range rows {
		if r.Fails() != "" {
			return errors.New("the suspects do not hold")
		}
	}
	return nil
}

// bySystem does a piece of work for every system with a circuit, or for those named,
// one on each core, and puts what comes of it together in the order of their ids.
func bySystem[Row any](ctx context.Context, lib *tree.Library, named []string, work func(*tree.System) ([]Row, error)) ([]Row, error) {
	var systems []*tree.System
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		if sys := lib.Systems[id]; sys.Circuit != nil && (len(named) == 0 || slices.Contains(named, id)) {
			systems = append(systems, sys)
		}
	}
	// As in proveAll: machines live briefly and are many.
	const seldom = 400
	defer debug.SetGCPercent(debug.SetGCPercent(seldom))
	rows, errs := make([][]Row, len(systems)), make([]error, len(systems))
	var all sync.WaitGroup
	for i, sys := range systems {
		all.Go(func() {
			if rows[i], errs[i] = work(sys); errs[i] != nil {
				errs[i] = fmt.Errorf("%s: %w", sys.ID, errs[i])
			}
		})
	}
	all.Wait()
	return slices.Concat(rows...), firstOf(append(errs, ctx.Err())...)
}
