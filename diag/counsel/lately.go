package counsel

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/tree"
)

// How many of the shop's own jobs a sentence is about.
const (
	fewestLately = 3
	mostLately   = 6
)

// Lately says what the shop's last proved jobs of a system with a complaint were:
// "Of your last six of these, four were: ...". Empty when there were fewer than
// three. A job with two faults counts for both.
func Lately(sys *tree.System, complaint string, shop Shop) string {
	jobs := shop.Last[complaint]
	if sys == nil || len(jobs) < fewestLately {
		return ""
	}
	jobs = jobs[:min(len(jobs), mostLately)]
	often := map[string]int{}
	for _, faults := range jobs {
		for _, f := range faults {
			often[f]++
		}
	}
	var ids []string // of faults that came more than once, the most frequent first
	for f, n := range often {
		if n > 1 {
			ids = append(ids, f)
		}
	}
	slices.SortFunc(ids, func(a, b string) int { return cmp.Or(cmp.Compare(often[b], often[a]), strings.Compare(a, b)) })
	head := fmt.Sprintf("Of your last %s of these,", inWords(len(jobs)))
	if len(ids) == 0 {
		return head + " no two had the same fault."
	}
	var parts []string
	for _, id := range ids {
		parts = append(parts, fmt.Sprintf("%s were: %s", inWords(often[id]), tree.InSentence(titleOf(sys, id))))
	}
	return head + " " + strings.Join(parts, "; ") + "."
}

func titleOf(sys *tree.System, fault string) string {
	if f := sys.Fault(fault); f != nil {
		return strings.TrimSuffix(f.Title, ".")
	}
	return fault // these trees no longer have it
}

// inWords is a small number as it is said.
func inWords(n int) string {
	return []string{"none", "one", "two", "three", "four", "five", "six"}[n]
}
