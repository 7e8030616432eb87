package screen

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// large is a store that lists only its newest jobs.
type large struct {
	job.Store
	jobs  []job.Summary
	older int
}

func (l large) Newest(context.Context, int) ([]job.Summary, int, error) { return l.jobs, l.older, nil }

func TestALargeRecordSaysWhatIsNotListed(t *testing.T) {
	b := bench(t, small)
	for i := range 30 {
		_, err := b.Store.Create(t.Context(), []job.Event{{Kind: job.KindIntake, Intake: &job.Intake{System: "s", Complaint: "c", Machine: fmt.Sprint("machine ", i)}}})
		require.NoError(t, err)
	}
	jobs, err := b.Store.Jobs(t.Context())
	require.NoError(t, err)
	b.Store = large{b.Store, jobs[20:], 20}
	d := drive(t, b)
	for _, width := range []int{80, 50} {
		d.size(width, 40)
		require.Contains(t, d.View(), "20 older jobs are not listed.")
		require.NotContains(t, d.View(), "machine 19")
	}
	d.keys("/nowhere")
	require.Contains(t, d.View(), "No job has these words.")
	require.Contains(t, d.View(), "20 older jobs are not listed.", "nor are they looked through")

	d = drive(t, b)
	d.line("5")
	require.NotContains(t, d.View(), "older jobs", "a job that is not listed opens by its number")
	require.NotContains(t, d.View(), "no such job")
}
