package repair

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/tree"
)

func setIDs(set []*tree.Repair) string {
	var out []string
	for _, r := range set {
		out = append(out, r.ID)
	}
	slices.Sort(out)
	return strings.Join(out, "+")
}

// minimalByForce tries every subset of the repairs against the definition: it
// clears everything, and without any one of its repairs it doesn't.
func minimalByForce(repairs []*tree.Repair, found []*tree.Fault) []string {
	clearsAll := func(bits int) bool {
		for _, f := range found {
			cleared := false
			for i, r := range repairs {
				cleared = cleared || bits&(1<<i) != 0 && slices.Contains(r.Clears, f.ID)
			}
			if !cleared {
				return false
			}
		}
		return true
	}
	var out []string
	for bits := range 1 << len(repairs) {
		minimal := clearsAll(bits)
		var set []*tree.Repair
		for i, r := range repairs {
			if bits&(1<<i) != 0 {
				set = append(set, r)
				minimal = minimal && !clearsAll(bits&^(1<<i))
			}
		}
		if minimal {
			out = append(out, setIDs(set))
		}
	}
	slices.Sort(out)
	return out
}

func TestCoversAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var found []*tree.Fault
		for i := range rapid.IntRange(1, 6).Draw(t, "faults") {
			found = append(found, &tree.Fault{ID: fmt.Sprintf("f.%d", i)})
		}
		var repairs []*tree.Repair
		for i := range rapid.IntRange(0, 8).Draw(t, "repairs") {
			r := &tree.Repair{ID: fmt.Sprintf("r%d", i)}
			for _, f := range found {
				if rapid.Bool().Draw(t, "clears") {
					r.Clears = append(r.Clears, f.ID)
				}
			}
			repairs = append(repairs, r)
		}
		sets, cut := covers(repairs, found)
		require.False(t, cut)
		var got []string
		for _, s := range sets {
			got = append(got, setIDs(s))
		}
		slices.Sort(got)
		require.Equal(t, minimalByForce(repairs, found), got)
	})
}

// Twelve faults with three repairs each would be 3^12 sets.
func TestCoversAreBounded(t *testing.T) {
	var found []*tree.Fault
	var repairs []*tree.Repair
	for i := range 12 {
		f := &tree.Fault{ID: fmt.Sprintf("f.%d", i)}
		found = append(found, f)
		for j := range 3 {
			repairs = append(repairs, &tree.Repair{ID: fmt.Sprintf("r%d-%d", i, j), Clears: []string{f.ID}})
		}
	}
	sets, cut := covers(repairs, found)
	require.True(t, cut)
	require.Len(t, sets, mostCovers)
}
