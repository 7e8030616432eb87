//go:build !windows

package app

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// Two programs on one job of one record. Whoever answers on a page that is no longer
// true is told so and shown what came in; nothing of either is lost, and nothing is
// recorded twice.
func TestTwoBenchesOnOneJobOfOneRecord(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	one := pumpOn(t, record)
	one.takes(takeIn...)
	two := pumpOn(t, record)
	two.takes(step{"", "Yard pump"}, step{"1\r", "Battery at rest"}, step{"12.6\r", "12.60 +- 0.11 V, full"})

	// The first bench stands at a reading that the second has taken. The page goes on,
	// and what was typed is no answer to it.
	require.Contains(t, one.Shows(), "Battery at rest")
	one.takes(step{"12.4\r", "! Somebody else added to this job meanwhile"})
	require.Contains(t, one.Shows(), "Make safe before: Battery with the switch held", "what came in is shown")
	require.Contains(t, one.Shows(), `Not recorded: "12.4".`)
	one.takes(step{"yes\r", "Hold the switch."})

	// Where the page stays what was typed does, and Enter records it.
	two.takes(step{"yes\r", `Not recorded: "yes".`}, step{"", "Hold the switch."})
	two.takes(step{"note it hums\r", "Noted."})
	one.takes(step{"11.2\r", "! Somebody else added"}, step{"", "> 11.2_"}, step{"\r", "11.20 +- 0.11 V, holds"})
	two.takes(step{"11.4\r", `Not recorded: "11.4".`}, step{"11.1\r", "11.10 +- 0.10 V, there"})

	// What one takes back the other sees.
	one.takes(step{"11.3\r", `Not recorded: "11.3".`}, step{"z\r", "Taken back: Volts at the motor, 11.1."})
	two.takes(step{"yes\r", `Not recorded: "yes".`}, step{"", "[R] red      Motor positive"}, step{"11.0\r", "11.0"})

	for _, s := range []onScreen{one, two} {
		s.press("\x03")
		require.NoError(t, s.Ends())
	}
	var got []string
	for _, e := range recorded(t, record) {
		switch e.Kind {
		case job.KindRead:
			got = append(got, e.Read.Test+" "+e.Read.Reading.Text)
		case job.KindNoted:
			got = append(got, e.Noted.Text)
		}
	}
	require.Equal(t, []string{"rest 12.6", "it hums", "held 11.2", "motor 11.1", "motor 11.0"}, got)
}
