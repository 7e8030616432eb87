package recorddb

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// soon is how long tests wait for another bench.
const soon = 50 * time.Millisecond

// openAt opens a record for one test and closes it afterwards.
func openAt(t *testing.T, path string, wait time.Duration) *DB {
	t.Helper()
	db, err := open(t.Context(), path, wait, steps())
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return db
}

func fresh(t *testing.T) string { return filepath.Join(t.TempDir(), "record.db") }

// begin starts a job in a record.
func begin(t *testing.T, db *DB) int64 {
	t.Helper()
	id, err := db.Create(t.Context(), []job.Event{jobtest.Intake()})
	require.NoError(t, err)
	return id
}

func TestTheRecordIsAStore(t *testing.T) {
	jobtest.Suite(t, func(t *testing.T) job.Store {
		db, err := Open(t.Context(), fresh(t))
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, db.Close()) })
		return db
	})
}

func TestTwoProgramsOnOneRecord(t *testing.T) {
	path := fresh(t)
	a, b := openAt(t, path, waitForLock), openAt(t, path, waitForLock)
	jobtest.Benches(t, a, b)

	id := begin(t, a)
	_, err := b.Append(t.Context(), id, 1, []job.Event{jobtest.Note("b was faster")})
	require.NoError(t, err)
	_, err = a.Append(t.Context(), id, 1, []job.Event{jobtest.Note("a knows nothing of it")})
	require.ErrorIs(t, err, job.ErrConflict)
	events, err := a.Load(t.Context(), id)
	require.NoError(t, err)
	require.Equal(t, "b was faster", events[1].Noted.Text)
	require.EqualValues(t, 3, begin(t, b), "numbers of jobs are shared")
	jobtest.BothWant(t, a, b)
}

func TestManyProgramsMakeOneRecord(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "folder", "record.db")
	errs := make(chan error)
	for range 6 {
		go func() {
			db, err := Open(context.Background(), path)
			if err == nil {
				_, err = db.Create(context.Background(), []job.Event{jobtest.Intake()})
				_ = db.Close()
			}
			errs <- err
		}()
	}
	for range 6 {
		require.NoError(t, <-errs)
	}
	jobs, err := openAt(t, path, soon).Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 6)
}

func TestWhatIsSavedIsThereWhenOpenedAgain(t *testing.T) {
	path := fresh(t)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	id, err := db.Create(t.Context(), jobtest.Life())
	require.NoError(t, err)
	require.NoError(t, db.Close())

	events, err := openAt(t, path, soon).Load(t.Context(), id)
	require.NoError(t, err)
	require.Equal(t, jobtest.Life(), events)
}

func TestOnlyItsOwnerCanReadIt(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has no such file modes")
	}
	folder := filepath.Join(t.TempDir(), "new")
	path := filepath.Join(folder, "record.db")
	db := openAt(t, path, soon)
	begin(t, db)
	for name, want := range map[string]os.FileMode{folder: 0o700, path: 0o600, path + "-wal": 0o600, path + "-shm": 0o600} {
		info, err := os.Stat(name)
		require.NoError(t, err)
		require.Equal(t, want, info.Mode().Perm(), name)
	}
}

func TestFileNamesThatEndNames(t *testing.T) {
	names := []string{
		"a?b.db", "a#b.db", "50%.db", "%41.db", "two words.db", "a?mode=memory&x=.db", "a&b=c;d.db",
		"file:x.db", "Werkstatt Süd µ.db", "it's \"quoted\".db",
	}
	if runtime.GOOS == "windows" {
		names = []string{"a#b.db", "50%.db", "%41.db", "two words.db", "a&b=c;d.db", "it's.db"}
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, name)
			db := openAt(t, path, soon)
			begin(t, db)
			require.NoError(t, db.backup(t.Context(), 1))
			entries, err := os.ReadDir(folder)
			require.NoError(t, err)
			for _, entry := range entries {
				require.True(t, strings.HasPrefix(entry.Name(), name), "stray file %q", entry.Name())
			}
			copied, err := openAt(t, path+".backup-1", soon).Jobs(t.Context())
			require.NoError(t, err)
			require.Len(t, copied, 1)
		})
	}
}

func TestAPathFromHere(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows allows no colon in a file name")
	}
	t.Chdir(t.TempDir())
	begin(t, openAt(t, "file:record.db", soon))
	require.FileExists(t, "file:record.db")
}

// TestSettings looks that each connection has the settings that durability
// rests on: write-ahead log, sync at every commit (2 is FULL), foreign keys.
func TestSettings(t *testing.T) {
	db := openAt(t, fresh(t), waitForLock)
	for pragma, want := range map[string]string{
		"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000",
		"user_version": strconv.Itoa(len(steps())), "application_id": "1651274340",
	} {
		var got string
		require.NoError(t, db.sql.QueryRowContext(t.Context(), "pragma "+pragma).Scan(&got))
		require.Equal(t, want, got, pragma)
	}
	require.Equal(t, 1, db.sql.Stats().MaxOpenConnections)
}
