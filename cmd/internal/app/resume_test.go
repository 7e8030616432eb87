//go:build !windows

package app

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// killed is one sitting at a job that ends by a kill: what is shown when the job is
// opened, what is done, what is typed and not sent, and what the record has gained.
type killed struct {
	opens  string
	steps  []step
	unsent string
	gained []job.Kind
}

var sittings = []killed{
	{"This is job 1.", nil, "12.6", []job.Kind{job.KindIntake}},
	{
		"Battery at rest", toVerdict[:3], "11.",
		[]job.Kind{job.KindRead, job.KindSafe, job.KindRead},
	},
	{
		"Make safe before: Volts at the motor",
		[]step{{"yes\r", "[R] red      Motor positive"}, toVerdict[3]},
		"yes",
		[]job.Kind{job.KindSafe, job.KindRead},
	},
	{
		"Make safe before: Does it turn", append(append([]step{}, toVerdict[4:]...), toRepair[0]), "a\rMrs. K",
		[]job.Kind{job.KindSafe, job.KindSeen, job.KindChosen},
	},
	{
		"Estimate for the owner", append(append([]step{}, toRepair[1:]...), toHandBack[0]), "d",
		[]job.Kind{job.KindAsked, job.KindLined},
	},
	{
		"[x]  1  Fit it.",
		[]step{{"d\r", "Make safe before: Does it turn"}},
		"ye",
		[]job.Kind{job.KindTicked},
	},
	{
		"Make safe before: Does it turn", append([]step{{"yes\r", "before: stands"}}, toHandBack[3:11]...), "z",
		[]job.Kind{job.KindSafe, job.KindSeen, job.KindRead, job.KindRead, job.KindServed, job.KindServed, job.KindSeen, job.KindClosed},
	},
}

// A program that is killed in the middle of a job, at whichever page, has lost nothing
// that it acknowledged and has taken nothing that was not sent. The job goes on there.
func TestAJobIsResumedAfterAKill(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	var want []job.Kind
	for i, sitting := range sittings {
		s := pumpOn(t, record)
		if i == 0 {
			s.takes(takeIn...)
		} else {
			s.takes(step{"", "Yard pump"}, step{"1\r", sitting.opens})
		}
		s.takes(sitting.steps...)
		s.press(sitting.unsent)
		require.NoError(t, s.Kill())
		require.ErrorContains(t, s.Ends(), "killed")
		want = append(want, sitting.gained...)
		require.Equal(t, want, kinds(recorded(t, record)), "after %s", sitting.opens)
	}
}
