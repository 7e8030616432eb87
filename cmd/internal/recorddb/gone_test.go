//go:build !windows

package recorddb

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// A stick is pulled out and put back: nothing is taken meanwhile, and all of it
// afterwards, without a new start.
func TestARecordThatGoesAwayAndComesBack(t *testing.T) {
	stick := filepath.Join(t.TempDir(), "stick")
	path := filepath.Join(stick, "record.db")
	db := openAt(t, path, soon)
	id := begin(t, db)
	require.NoError(t, os.Rename(stick, stick+"-pulled"))

	note := []job.Event{jobtest.Note("of the meantime")}
	_, err := db.Append(t.Context(), id, 1, note)
	require.ErrorIs(t, err, job.ErrGone)
	_, err = db.Create(t.Context(), []job.Event{jobtest.Intake()})
	require.ErrorIs(t, err, job.ErrGone)
	_, err = db.Shelve(t.Context(), jobtest.Starter(), 1)
	require.ErrorIs(t, err, job.ErrGone)
	require.NoFileExists(t, path, "no new record in its place")

	require.NoError(t, os.Rename(stick+"-pulled", stick))
	events, err := db.Load(t.Context(), id)
	require.NoError(t, err)
	require.Len(t, events, 1)
	_, err = db.Append(t.Context(), id, 1, note)
	require.NoError(t, err)
	pieces, err := db.Bin(t.Context())
	require.NoError(t, err)
	require.Empty(t, pieces)
}

// What is written to a file without a name is lost once it is closed.
func TestARecordThatAnotherFileTookThePlaceOf(t *testing.T) {
	path := fresh(t)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	id := begin(t, db)
	other := aged(t)
	require.NoError(t, os.Rename(other, path))
	_, err = db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("x")})
	require.ErrorIs(t, err, job.ErrGone)
	require.ErrorContains(t, err, "another file")
	require.NoError(t, os.Remove(path))
	_, err = db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("x")})
	require.ErrorIs(t, err, job.ErrGone)
	_ = db.Close()
}

// The pool of connections may open one anew at any time.
func TestAConnectionMakesNoFile(t *testing.T) {
	path := fresh(t)
	handle, err := connect(source(path, pragmas(soon)...))
	require.NoError(t, err)
	require.Error(t, handle.PingContext(t.Context()))
	require.NoError(t, handle.Close())
	require.NoFileExists(t, path)
}
