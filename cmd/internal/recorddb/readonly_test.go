package recorddb

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// folderOf is every file beside a record with what is in it.
func folderOf(t *testing.T, path string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, name := range names(t, path) {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(path), name))
		require.NoError(t, err)
		out[name] = string(data)
	}
	return out
}

// Who may not write looks without leaving a trace: not even the files that SQLite
// puts beside a record.
func TestLookingChangesNothing(t *testing.T) {
	path := fresh(t)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	worked(t, db, 6)
	want := exported(t, db)
	require.NoError(t, db.Close())
	before := folderOf(t, path)

	looked, err := openReadOnly(t.Context(), path)
	require.NoError(t, err)
	require.True(t, looked.ReadOnly())
	require.False(t, looked.Made())
	require.Equal(t, want, exported(t, looked))
	checkCards(t, looked)
	_, err = looked.Append(t.Context(), 1, 1, []job.Event{jobtest.Note("x")})
	require.Error(t, err)
	_, err = looked.Create(t.Context(), []job.Event{jobtest.Intake()})
	require.ErrorIs(t, err, job.ErrReadOnly)
	copied, err := looked.Backup(t.Context(), filepath.Join(t.TempDir(), "stick.db"), day)
	require.NoError(t, err)
	require.Equal(t, want, exported(t, openAt(t, copied, soon)))
	require.NoError(t, looked.Close())
	require.Equal(t, before, folderOf(t, path))
}

// What another program has not yet taken into the file is seen, too.
func TestLookingWhileAnotherWrites(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	worked(t, db, 4)
	looked, err := openReadOnly(t.Context(), path)
	require.NoError(t, err)
	defer looked.Close()
	require.Equal(t, exported(t, db), exported(t, looked))
}

func TestLookingAtWhatCantBeLookedAt(t *testing.T) {
	_, err := OpenToRead(t.Context(), fresh(t))
	require.ErrorIs(t, err, fs.ErrNotExist)
	_, err = openReadOnly(t.Context(), oldRecord(t, jobtest.Life()))
	require.ErrorIs(t, err, errOlder)
	empty := fresh(t)
	require.NoError(t, os.WriteFile(empty, nil, 0o600))
	_, err = openReadOnly(t.Context(), empty)
	require.ErrorIs(t, err, job.ErrDamaged)
	db, err := OpenToRead(t.Context(), aged(t))
	require.NoError(t, err)
	require.False(t, db.ReadOnly(), "where it can be written it is a record as any other")
	require.NoError(t, db.Close())
}

func TestAFileThatOnlyItsOwnerMayWrite(t *testing.T) {
	path := aged(t)
	require.NoError(t, os.Chmod(path, 0o400))
	if f, err := os.OpenFile(path, os.O_RDWR, 0); err == nil {
		_ = f.Close()
		t.Skip("this user may write anywhere")
	}
	before := folderOf(t, path)
	_, err := Open(t.Context(), path)
	require.ErrorIs(t, err, job.ErrReadOnly)
	db, err := OpenToRead(t.Context(), path)
	require.NoError(t, err)
	require.True(t, db.ReadOnly())
	jobs, err := db.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 1)
	require.NoError(t, db.Close())
	require.Equal(t, before, folderOf(t, path))
}

func TestAPipeIsNoRecord(t *testing.T) {
	for _, path := range []string{t.TempDir(), os.DevNull} {
		_, err := Open(t.Context(), path)
		require.ErrorContains(t, err, "not a plain file")
	}
}
