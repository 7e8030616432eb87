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
	slower    int      // survivors that take longer
}

// counts are the mutants of one kind.
type counts struct{ made, refused, singles, pairs, survived int }

func (c counts) caught() int { return c.refused + c.singles + c.pairs }

// newTally counts results. all says that every mutant was tried, so that a known
// survivor that is not among them is gone.
func newTally(results []result, known map[string]string, all bool) *tally {
	t := &tally{kinds: map[mutant.Kind]*counts{}, codes: map[string]int{}, known: known}
	for _, k := range mutant.Kinds {
		t.kinds[k] = &counts{}
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
	case r.finding.By == rerun.Singles:
		c.singles++
	case r.finding.By == rerun.Pairs:
		c.pairs++
	default:
		c.survived++
		t.survivors = append(t.survivors, r)
		if len(r.finding.Slower) > 0 {
			t.slower++
		}
	}
}

func (t *tally) sum() counts {
	var all counts
	for _, c := range t.kinds {
		all.made += c.made
		all.refused += c.refused
		all.singles += c.singles
		all.pairs += c.pairs
		all.survived += c.survived
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
		for _, s := range r.finding.Slower {
			fmt.Fprintf(w, "    slower: %s\n", s)
		}
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
	fmt.Fprintf(w, "%d survivors lack a reason, %d are slower, %d of the list survive no more.\n", without, t.slower, len(t.gone))
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
		fmt.Fprintf(w, "%-8s %7d %8d %8d %8d %9d %7.1f %%\n", name, c.made, c.refused, c.singles, c.pairs, c.survived, share)
	}
	fmt.Fprintf(w, "\n%-8s %7s %8s %8s %8s %9s %9s\n", "", "made", "refused", "singles", "pairs", "survived", "caught")
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
