//go:build !windows

package app

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// Every answer can be taken back by its key, to the one before the first reading; the
// log keeps all of it, and the job goes on to its end.
func TestUndoLeadsBackToTheIntakeStepByStep(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	s := pumpOn(t, record)
	// Within the intake Esc is the question before.
	s.takes(takeIn[:5]...)
	s.takes(step{"\x1b", "Machine, in your words?"}, step{"\x1b", "What does it do?"}, step{"1\r", "Machine, in your words?"})
	s.takes(takeIn[4:]...)

	s.takes(step{"12.1\r", "12.10 +- 0.11 V, low"}, step{"z\r", "Taken back: Battery at rest, 12.1."})
	s.takes(toVerdict...)
	s.takes(toRepair...)
	s.takes(step{"z\r", "Taken back: the owner's answer."})
	s.wait("Estimate for the owner")
	s.takes(toRepair[1:]...)
	s.takes(step{"\r", "[x]  1  Fit it."}, step{"z\r", "Taken back: Fit it."}, step{"", "> [ ]  1  Fit it."})
	s.takes(
		step{"z\r", "Taken back: the owner's answer."},
		step{"z\r", "Taken back: the way that was chosen."},
		step{"z\r", "Taken back: Does it turn, stands."},
		step{"z\r", "Taken back: Volts at the motor, 11.1."},
		step{"z\r", "Taken back: Battery with the switch held, 11.2."},
		step{"z\r", "Taken back: Battery at rest, 12.6."},
		step{"undo\r", "! There is nothing to undo."},
	)
	require.Contains(t, s.Shows(), "Battery at rest")
	require.Contains(t, s.Shows(), "Found: nothing yet")
	require.NotContains(t, s.Shows(), "z undo")
	s.takes(step{"12.6\r", "12.60 +- 0.11 V, full"})
	s.press("\x03")
	require.NoError(t, s.Ends())

	events := recorded(t, record)
	facts, err := job.Fold(events)
	require.NoError(t, err)
	require.Len(t, facts.Answers, 1)
	require.Nil(t, facts.Chosen)
	undone := 0
	for _, e := range events {
		if e.Kind == job.KindUndone {
			undone++
		}
	}
	require.Equal(t, 9, undone, "nothing is erased")
}
