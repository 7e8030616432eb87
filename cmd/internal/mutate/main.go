// Mutate breaks the trees in every way that package mutant knows, one at a time,
// and shows how many of the broken libraries `benchlead check` refuses and how
// many the proof catches. What neither does, survives: each known survivor has a
// reason in testdata/proof/survivors.txt.
//
//	go run ./cmd/internal/mutate [-sample N] [TREE...]
//
// With names of trees it breaks these and the tests that they ask. The exit
// status is 1 when fewer than 90 % are caught, 2 when it can't be done.
//
// What tests call healthy is not held against simulated machines, as check does:
// neither the machines nor the healthy limits depend on cuts and routes.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"benchlead/diag/prove/rerun"
)

// options are the options as typed.
type options struct {
	folder, known string
	sample        int
	trees         []string
	tries         rerun.Options
}

// atLeast is the share of mutants that must be caught.
const atLeast = 0.90

// errFew is the error when fewer are.
var errFew = errors.New("too few are caught")

func main() {
	// Most memory lives briefly: cleaning up less often saves a third of the time.
	const seldom, most = 400, 3 << 30
	debug.SetGCPercent(seldom)
	debug.SetMemoryLimit(most)
	err := run(os.Args[1:], os.Stdout, os.Stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
	case errors.Is(err, errFew):
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	case err != nil:
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
}

func run(args []string, out, notes io.Writer) error {
	o, err := parse(args, notes)
	if err != nil {
		return err
	}
	j, err := newJob(o)
	if err != nil {
		return err
	}
	known, err := readKnown(o.known)
	if err != nil {
		return err
	}
	results, err := j.run(notes)
	if err != nil {
		return err
	}
	t := newTally(results, known, o.sample == 0 && len(o.trees) == 0)
	t.print(out)
	if t.share() < atLeast {
		return fmt.Errorf("%w: %.1f %%, and it should be %.0f", errFew, 100*t.share(), 100*atLeast)
	}
	return nil
}

func parse(args []string, notes io.Writer) (options, error) {
	o := options{tries: rerun.Options{}}
	f := flag.NewFlagSet("mutate", flag.ContinueOnError)
	f.SetOutput(notes)
	f.StringVar(&o.folder, "trees", "trees", "the folder with the trees")
	f.StringVar(&o.known, "known", "testdata/proof/survivors.txt", "the file with the reasons of known survivors")
	f.IntVar(&o.sample, "sample", 0, "try only so many, the same ones each time; 0: all")
	f.IntVar(&o.tries.Draws, "draws", 100, "machines for each fault alone")
	f.IntVar(&o.tries.HandDraws, "hands", 30, "machines for each fault with tests that can't be taken, and with slips; 0: none")
	f.IntVar(&o.tries.PairDraws, "pairs", 4, "machines for each two faults, where single ones tell nothing; 0: none")
	f.Uint64Var(&o.tries.Seed, "seed", 1, "the same seed builds the same machines")
	if err := f.Parse(args); err != nil {
		return o, err
	}
	o.trees = f.Args()
	if o.sample < 0 || o.tries.Draws < 1 || o.tries.HandDraws < 0 || o.tries.PairDraws < 0 {
		return o, fmt.Errorf("-sample, -hands and -pairs can't be less than 0, nor -draws less than 1")
	}
	return o, nil
}
