package app

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"benchlead/diag/prove/decide"
	"benchlead/diag/tree"
)

// The machines of each hypothesis in the clouds, and the cases of each world,
// unless --draws says otherwise.
const (
	usualCloud = 400
	usualCases = 400
)

// proveSuspects lets the suspects find what is wrong with simulated machines, a
// system on each core.
func (p *program) proveSuspects(ctx context.Context, trees []string, o proofOptions) error {
	switch {
	case len(trees) > 0:
		return usage{errors.New("--suspects walks no tree: leave out the names of trees")}
	case o.pairs || o.json || o.slips != 0 || o.untaken != 0 || o.shift != 0 || o.against != "" || o.store != "":
		return usage{errors.New("--suspects has cases of its own: write only --draws and --seed beside it")}
	}
	if err := o.check(); err != nil {
		return err
	}
	lib, err := p.library()
	if err != nil {
		return err
	}
	rows, err := suspectRows(ctx, lib, decide.Setting{Machines: o.draws, Cases: usualCases, Seed: o.seed})
	if err != nil {
		return err
	}
	if err := decide.Text(p.streams.Out, rows); err != nil {
		return err
	}
	for _, r := range rows {
		if r.Fails() != "" {
			return errors.New("the suspects do not hold")
		}
	}
	return nil
}

// suspectRows are those of every system with a circuit, in the order of their ids.
func suspectRows(ctx context.Context, lib *tree.Library, s decide.Setting) ([]decide.Row, error) {
	var systems []*tree.System
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		if sys := lib.Systems[id]; sys.Circuit != nil {
			systems = append(systems, sys)
		}
	}
	rows, errs := make([][]decide.Row, len(systems)), make([]error, len(systems))
	var all sync.WaitGroup
	for i, sys := range systems {
		all.Go(func() {
			if rows[i], errs[i] = decide.Prove(lib, sys, s); errs[i] != nil {
				errs[i] = fmt.Errorf("%s: %w", sys.ID, errs[i])
			}
		})
	}
	all.Wait()
	return slices.Concat(rows...), firstOf(append(errs, ctx.Err())...)
}
