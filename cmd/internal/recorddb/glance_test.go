package recorddb

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// Who glances at a record changes nothing, sees what is in it, and is not held up.
func TestAGlanceChangesNothing(t *testing.T) {
	path := fresh(t)
	_, err := Glance(t.Context(), path)
	require.Error(t, err)
	require.Empty(t, names(t, path), "a record that is not there is not made")

	db := openAt(t, path, soon)
	id := begin(t, db)
	release := hold(t, path) // another bench is writing
	look, err := Glance(t.Context(), path)
	require.NoError(t, err)
	jobs, _, err := look.Newest(t.Context(), 5)
	require.NoError(t, err)
	require.Equal(t, id, jobs[0].ID)
	_, err = look.Bin(t.Context())
	require.NoError(t, err)
	release()
	_, err = look.Create(t.Context(), []job.Event{jobtest.Intake()})
	require.Error(t, err, "it can't be written to")
	require.NoError(t, look.Close())
}

// An older record is left as it is.
func TestAGlanceMigratesNothing(t *testing.T) {
	path := fresh(t)
	if older, err := open(t.Context(), path, soon, steps()[:1]); err == nil { // made, though no job fits in
		require.NoError(t, older.Close())
	}
	_, err := Glance(t.Context(), path)
	require.ErrorIs(t, err, job.ErrReadOnly)
}
