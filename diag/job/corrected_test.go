package job_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// A correction counts from the beginning and can be taken back. System and trees stay:
// the answers are to their tests.
func TestWhatIsKnownOfAMachineCanBePutRight(t *testing.T) {
	intake := jobtest.Intake()
	for name, c := range map[string]struct {
		log     []job.Event
		machine string
	}{
		"as taken in":     {[]job.Event{intake, volts("a", 1)}, intake.Intake.Machine},
		"put right":       {[]job.Event{intake, volts("a", 1), corrected("red"), volts("a", 2)}, "red"},
		"twice":           {[]job.Event{intake, corrected("red"), corrected("blue")}, "blue"},
		"taken back":      {[]job.Event{intake, corrected("red"), undo(2)}, intake.Intake.Machine},
		"one taken back":  {[]job.Event{intake, corrected("red"), corrected("blue"), undo(3)}, "red"},
		"of an empty log": {nil, ""},
	} {
		log := number(c.log...)
		facts, err := job.Fold(log)
		require.NoError(t, err, name)
		in := job.Described(log)
		require.Equal(t, facts.Intake, in, name)
		if in == nil {
			continue
		}
		require.Equal(t, c.machine, in.Machine, name)
		require.Equal(t, intake.Intake.System, in.System, name)
		require.Equal(t, intake.Intake.Digest, in.Digest, name)
		require.Equal(t, c.machine, job.Summarize(1, log, nil).Machine, name)
	}
	require.NotEqual(t, "red", intake.Intake.Machine, "the log itself is left alone")
}
