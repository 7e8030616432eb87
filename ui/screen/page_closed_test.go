package screen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A closed job that is opened again says what was found, by which reading, what was done
// and for how much, and where the report is; and evidence says no less.
func TestAClosedJobSaysWhatCameOfIt(t *testing.T) {
	d := drive(t, bench(t, small))
	closing(d) // held 8.9 V before and 11.8 V after; a new battery for 55.85
	d.keys("1 <enter> yes <enter> q <enter> 1 <enter>")
	for _, key := range []string{"", "e"} {
		d.keys(key)
		page := strings.Join(strings.Fields(d.View()), " ")
		for _, want := range []string{
			"Found: The battery is worn out, by Battery with the switch held: 8.90",
			"Repaired: Fit a new battery. Estimate: 55.85 USD.",
			"Battery with the switch held: before 8.90", "after 11.80",
		} {
			require.Contains(t, page, want)
		}
		require.NotContains(t, page, "No fault is shown yet")
	}
	d.keys("<esc>")
	require.Contains(t, d.View(), "benchlead report 1\n")
	require.Contains(t, d.View(), "repaired and proved")
}

// The ways to go on, with their numbers and totals, are on the first page of a verdict
// that has to be scrolled; the list of ways says how one is chosen.
func TestTheWaysStandFirstOnALongVerdict(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 20}} {
		b, _ := suspecting(t)
		d := drive(t, b)
		d.size(size[0], size[1])
		d.begin("1", "1", "Green pump")
		doubted(d)
		page := d.View()
		require.Contains(t, page, "-- more")
		ways := d.step.prompt.Ways
		require.NotEmpty(t, ways)
		for _, w := range ways {
			require.Contains(t, page, w.Text[:20])
			require.Contains(t, page, w.Amount)
		}
		d.keys("p")
		require.Contains(t, d.View(), "Type a way's number, then Enter")
	}
}
