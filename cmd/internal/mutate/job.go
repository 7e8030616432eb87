package main

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"io"
	"io/fs"
	"os"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"benchlead/diag/prove"
	"benchlead/diag/prove/mutant"
	"benchlead/diag/prove/rerun"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// job is a library and the mutants of it that are tried.
type job struct {
	options options
	files   []source.File
	lib     *tree.Library
	mutants []mutant.Mutant
}

// result is what came of one mutant.
type result struct {
	*mutant.Mutant
	refused *source.Issue // what check says first; nil when it says nothing
	finding rerun.Finding
}

func (r result) caught() bool { return r.refused != nil || r.finding.By != rerun.Nothing }

func newJob(o options) (*job, error) {
	files, err := readTrees(o.folder)
	if err != nil {
		return nil, err
	}
	lib, issues := tree.Load(files)
	if len(issues) > 0 {
		return nil, fmt.Errorf("the trees must be whole before they are broken: %w", issues.Err())
	}
	j := &job{options: o, files: files, lib: lib}
	all, err := mutant.Make(files, lib)
	if err != nil {
		return nil, err
	}
	if j.mutants, err = j.of(o.trees, all); err != nil {
		return nil, err
	}
	j.mutants = sample(j.mutants, o.sample)
	return j, nil
}

// readTrees reads every YAML file below a folder, but for demo/.
func readTrees(folder string) ([]source.File, error) {
	var files []source.File
	err := fs.WalkDir(os.DirFS(folder), ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && name == "demo":
			return fs.SkipDir
		case entry.IsDir() || !strings.HasSuffix(name, ".yaml"):
			return nil
		}
		data, err := os.ReadFile(path.Join(folder, name))
		if err != nil {
			return err
		}
		file, issues := source.Open(path.Join("trees", name), data)
		if len(issues) > 0 {
			return issues.Err()
		}
		files = append(files, *file)
		return nil
	})
	return files, err
}

// of are the mutants of trees, and of the tests that these ask; all when none is
// named.
func (j *job) of(trees []string, all []mutant.Mutant) ([]mutant.Mutant, error) {
	if len(trees) == 0 {
		return all, nil
	}
	asked := map[string]bool{}
	for _, id := range trees {
		t := j.lib.Trees[id]
		if t == nil {
			return nil, fmt.Errorf("there is no tree %q; \"benchlead trees\" lists them", id)
		}
		plan, err := prove.NewPlan(j.lib, prove.Options{Draws: 1})
		if err != nil {
			return nil, err
		}
		for _, system := range t.Systems {
			for _, test := range plan.Asks(id, system) {
				asked[test.ID] = true
			}
		}
	}
	return slices.DeleteFunc(all, func(m mutant.Mutant) bool {
		return !slices.Contains(trees, m.Touch.Tree) && !asked[m.Touch.Test]
	}), nil
}

// sample is n of the mutants, picked by their names: the same each time, and most
// of them still the same when a tree is edited.
func sample(all []mutant.Mutant, n int) []mutant.Mutant {
	if n == 0 || n >= len(all) {
		return all
	}
	lot := func(m mutant.Mutant) uint64 {
		h := fnv.New64a()
		_, _ = io.WriteString(h, m.Name)
		return h.Sum64()
	}
	picked := slices.Clone(all)
	slices.SortFunc(picked, func(a, b mutant.Mutant) int { return cmp.Compare(lot(a), lot(b)) })
	names := map[string]bool{}
	for _, m := range picked[:n] {
		names[m.Name] = true
	}
	return slices.DeleteFunc(slices.Clone(all), func(m mutant.Mutant) bool { return !names[m.Name] })
}

// run tries every mutant, on all cores.
func (j *job) run(notes io.Writer) ([]result, error) {
	results := make([]result, len(j.mutants))
	workers := min(runtime.GOMAXPROCS(0), len(j.mutants))
	errs := make([]error, workers)
	var next, done atomic.Int64
	var all sync.WaitGroup
	stop := j.tell(notes, &done)
	for w := range workers {
		all.Go(func() {
			errs[w] = j.work(results, &next, &done)
		})
	}
	all.Wait()
	stop()
	return results, cmp.Or(errs...)
}

// work tries mutants until none is left.
func (j *job) work(results []result, next, done *atomic.Int64) error {
	bench, err := rerun.NewBench(j.lib, j.options.tries)
	if err != nil {
		return err
	}
	kept := tree.NewKept()
	kept.Keep(j.files)
	for i := next.Add(1) - 1; int(i) < len(j.mutants); i = next.Add(1) - 1 {
		r := result{Mutant: &j.mutants[i]}
		changed, issues := kept.Load(r.Apply(j.files))
		if len(issues) > 0 {
			r.refused = &issues[0]
		} else if r.finding, err = bench.Compare(changed, r.Touch); err != nil {
			return fmt.Errorf("%s: %w", r.Name, err)
		}
		results[i] = r
		done.Add(1)
	}
	return nil
}

// tell says now and then how far it is; the function it returns ends that.
func (j *job) tell(notes io.Writer, done *atomic.Int64) (stop func()) {
	const often = 20 * time.Second
	begun, ticker, ended := time.Now(), time.NewTicker(often), make(chan struct{})
	go func() {
		for {
			select {
			case <-ticker.C:
				fmt.Fprintf(notes, "%d of %d after %s\n", done.Load(), len(j.mutants), time.Since(begun).Round(time.Second))
			case <-ended:
				return
			}
		}
	}()
	return func() { ticker.Stop(); close(ended) }
}
