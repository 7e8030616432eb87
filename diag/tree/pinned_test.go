package tree

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// On both sides of every cut stands a known reading within a quarter of it, so
// that a cut can't move far without one changing its band.
func TestEveryCutIsHeldByKnownReadings(t *testing.T) {
	const near = 0.25
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	var loose []string
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		sys := lib.Systems[id]
		values := sys.LabelValues(nil, nil, benches[0])
		for _, test := range sys.Tests {
			for i, band := range test.Bands {
				cut, err := band.Cut(values)
				if err != nil || math.IsInf(cut, 0) || cut == 0 {
					continue
				}
				held := func(b Band) bool {
					return slices.ContainsFunc(b.SuchAs, func(v float64) bool { return math.Abs(v-cut) <= near*math.Abs(cut) })
				}
				for says, bands := range map[string][]Band{"below": test.Bands[:i+1], "above": test.Bands[i+1:]} {
					if !slices.ContainsFunc(bands, held) {
						loose = append(loose, fmt.Sprintf("%s:%d: %s (%s): no known reading stands close %s the cut, %s",
							band.Place.File, band.Place.Line, test.ID, band.Name, says, shownIn(cut, test.Unit, test.PerUnit)))
					}
				}
			}
		}
	}
	slices.Sort(loose)
	for _, says := range slices.Compact(loose) {
		t.Error(says)
	}
}
