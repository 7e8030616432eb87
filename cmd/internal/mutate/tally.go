package main

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"benchlead/diag/prove/mutant"
	"benchlead/diag/prove/rerun"
)

// tally counts what came of the mutants.
type tally struct {
	kinds     map[mutant.Kind]*counts
	codes     map[string]int // of check, for those that it refuses
	survivors []result
	known     map[string]string
	gone      []string // known ones that don't survive
}

// counts are the mutants of one kind.
type counts struct {
	made, refused, survived int
	by                      map[rerun.By]int
}

func (c counts) caught() int { return c.made - c.survived }

// bys are the columns of the table for what the proof catches.
var bys = []struct {
	by   rerun.By
	name string
}{{rerun.Singles, "singles"}, {rerun.Untaken, "untaken"}, {rerun.Slips, "slips"}, {rerun.Pairs, "pairs"}}

// newTally counts results. all says that every mutant was tried, so that a known
// survivor that is not among them is gone.
func newTally(results []result, known map[string]string, all bool) *tally {
	t := &tally{kinds: map[mutant.Kind]*counts{}, codes: map[string]int{}, known: known}
	for _, k := range mutant.Kinds {
		t.kinds[k] = &counts{by: map[rerun.By]int{}}
	}
	tried := map[string]bool{}
	for _, r := range results {
		tried[r.Name] = true
		t.add(r)
		if r.caught() && known[r.Name] != "" {
			t.gone = append(t.gone, r.Name)
		}
	}
	for name := range known {
		if all && !tried[name] {
			t.gone = append(t.gone, name)
		}
	}
	slices.Sort(t.gone)
	return t
}

func (t *tally) add(r result) {
	c := t.kinds[r.Kind]
	c.made++
	switch {
	case r.refused != nil:
		c.refused++
		t.codes[string(r.refused.Code)]++
	case r.finding.By != rerun.Nothing:
		c.by[r.finding.By]++
	default:
		c.survived++
		t.survivors = append(t.survivors, r)
	}
}

func (t *tally) sum() counts {
	all := counts{by: map[rerun.By]int{}}
	for _, c := range t.kinds {
		all.made += c.made
		all.refused += c.refused
		all.survived += c.survived
		for by, n := range c.by {
			all.by[by] += n
		}
	}
	return all
}

// share is how many are caught, of those made.
func (t *tally) share() float64 {
	all := t.sum()
	if all.made == 0 {
		return 1
	}
	return float64(all.caught()) / float64(all.made)
}

// print writes the survivors and then the figures, which are what one looks for
// last.
func (t *tally) print(w io.Writer) {
	without := 0
	for _, r := range t.survivors {
		what := strings.TrimPrefix(r.Name, r.Place.File+": ")
		fmt.Fprintf(w, "%s:%d: %s\n    %s\n", r.Place.File, r.Place.Line, what, r.Says)
		fmt.Fprintf(w, "    %s\n", near(r.finding))
		reason := t.known[r.Name]
		if reason == "" {
			without++
		}
		fmt.Fprintf(w, "    %s\n", cmp.Or(reason, "no reason is known"))
	}
	for _, name := range t.gone {
		fmt.Fprintf(w, "stands among the survivors, and is none: %s\n", name)
	}
	t.table(w)
	fmt.Fprintf(w, "%d survivors lack a reason, %d of the list survive no more.\n", without, len(t.gone))
}

func near(f rerun.Finding) string {
	if f.Near == 0 {
		return "no machine comes near it"
	}
	return fmt.Sprintf("%d machines come near it", f.Near)
}

func (t *tally) table(w io.Writer) {
	line := func(name string, c counts) {
		share := 100.0
		if c.made > 0 {
			share = 100 * float64(c.caught()) / float64(c.made)
		}
		fmt.Fprintf(w, "%-8s %7d %8d", name, c.made, c.refused)
		for _, b := range bys {
			fmt.Fprintf(w, " %8d", c.by[b.by])
		}
		fmt.Fprintf(w, " %9d %7.1f %%\n", c.survived, share)
	}
	fmt.Fprintf(w, "\n%-8s %7s %8s", "", "made", "refused")
	for _, b := range bys {
		fmt.Fprintf(w, " %8s", b.name)
	}
	fmt.Fprintf(w, " %9s %9s\n", "survived", "caught")
	for _, k := range mutant.Kinds {
		line(string(k), *t.kinds[k])
	}
	line("all", t.sum())
	for _, code := range slices.SortedFunc(maps.Keys(t.codes), func(a, b string) int {
		return cmp.Or(cmp.Compare(t.codes[b], t.codes[a]), cmp.Compare(a, b))
	}) {
		fmt.Fprintf(w, "refused for %s: %d\n", code, t.codes[code])
	}
}
