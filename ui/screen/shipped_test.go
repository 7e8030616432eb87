package screen

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// TestShippedStepsAreSeenWhole: in a window of 80 by 24 every step of the
// shipped trees shows what to do, where the leads go, the meter, the machine,
// what is healthy and every choice without scrolling.
func TestShippedStepsAreSeenWhole(t *testing.T) {
	b := bench(t, shipped)
	var ids []string
	for id := range b.Library.Systems {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for n, id := range ids {
		d := drive(t, b)
		d.size(80, 24)
		d.begin(string(rune('1'+n)), "1", "Machine")
		for _, test := range b.Library.Systems[id].Tests {
			if test.Kind == tree.Worked {
				continue
			}
			d.line("take " + test.ID)
			for range 5 {
				if d.step.prompt.Stage == walk.AtSafe {
					d.line("yes")
				}
			}
			require.True(t, isAsked(d.step.prompt.Stage), test.ID)
			d.said, d.wrong = nil, ""
			page := d.View()
			if strings.Contains(page, "-- more") {
				t.Errorf("%s %s doesn't fit:\n%s", id, test.ID, page)
			}
		}
	}
}
