package recorddb

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// hold takes the write lock of a record from another connection and gives the
// function that lets it go.
func hold(t *testing.T, path string) (release func()) {
	t.Helper()
	other, err := sql.Open("sqlite", source(path))
	require.NoError(t, err)
	tx, err := other.BeginTx(t.Context(), nil) // begin immediate
	require.NoError(t, err)
	return func() {
		require.NoError(t, tx.Rollback())
		require.NoError(t, other.Close())
	}
}

func TestALockedRecordSaysSo(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	id := begin(t, db)
	release := hold(t, path)

	from := time.Now()
	_, err := db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("waits")})
	require.ErrorIs(t, err, job.ErrLocked)
	require.GreaterOrEqual(t, time.Since(from), soon, "it waited")
	_, err = db.Create(t.Context(), []job.Event{jobtest.Intake()})
	require.ErrorIs(t, err, job.ErrLocked)
	events, err := db.Load(t.Context(), id)
	require.NoError(t, err, "reading needs no lock")
	require.Len(t, events, 1)
	again := openAt(t, path, soon)
	_, err = again.Jobs(t.Context())
	require.NoError(t, err)

	release()
	_, err = db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("goes in")})
	require.NoError(t, err)
}

func TestALockThatIsGivenBackInTime(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, waitForLock)
	id := begin(t, db)
	release := hold(t, path)
	added := make(chan error)
	go func() {
		_, err := db.Append(context.Background(), id, 1, []job.Event{jobtest.Note("waits a little")})
		added <- err
	}()
	time.Sleep(soon)
	release()
	require.NoError(t, <-added)
}

func TestWaitingCanBeCalledOff(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, time.Minute)
	id := begin(t, db)
	release := hold(t, path)
	ctx, cancel := context.WithTimeout(t.Context(), soon)
	defer cancel()
	from := time.Now()
	_, err := db.Append(ctx, id, 1, []job.Event{jobtest.Note("waits")})
	require.ErrorIs(t, err, context.DeadlineExceeded)
	require.Less(t, time.Since(from), 30*time.Second)
	release()
	_, err = db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("goes in")})
	require.NoError(t, err)
}

func TestAFullDiskSaysSo(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	id := begin(t, db)
	pages := func(n int) {
		_, err := db.sql.ExecContext(t.Context(), fmt.Sprintf("pragma max_page_count = %d", n))
		require.NoError(t, err)
	}
	pages(1) // SQLite takes the least that holds what is there

	long := jobtest.Note(strings.Repeat("x", 100_000))
	_, err := db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("short"), long})
	require.ErrorIs(t, err, job.ErrFull)
	_, err = db.Create(t.Context(), []job.Event{jobtest.Intake(), long})
	require.ErrorIs(t, err, job.ErrFull)
	events, err := db.Load(t.Context(), id)
	require.NoError(t, err)
	require.Len(t, events, 1, "nothing of it was kept")

	pages(1 << 30)
	_, err = db.Append(t.Context(), id, 1, []job.Event{long})
	require.NoError(t, err)
	require.EqualValues(t, 2, begin(t, db))
}

func TestAFolderThatCantBeWritten(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "record.db")
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	require.NoError(t, os.Chmod(folder, 0o500))
	t.Cleanup(func() { _ = os.Chmod(folder, 0o700) })
	if os.WriteFile(filepath.Join(folder, "probe"), nil, 0o600) == nil {
		t.Skip("this user may write anywhere")
	}
	_, err = Open(t.Context(), filepath.Join(folder, "new.db"))
	require.ErrorIs(t, err, job.ErrReadOnly)
	_, err = Open(t.Context(), filepath.Join(folder, "deeper", "new.db"))
	require.ErrorIs(t, err, job.ErrReadOnly)
	_, err = Open(t.Context(), path)
	require.ErrorIs(t, err, job.ErrReadOnly)
}

func TestARecordThatMayOnlyBeRead(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	id := begin(t, db)
	_, err := db.sql.ExecContext(t.Context(), "pragma query_only = 1")
	require.NoError(t, err)
	_, err = db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("x")})
	require.ErrorIs(t, err, job.ErrReadOnly)
}

func TestAFileThatIsNoRecordIsLeftAlone(t *testing.T) {
	for name, content := range map[string]string{
		"text":               "Dear customer,\n",
		"one byte":           "x",
		"long":               strings.Repeat("not a database ", 10_000),
		"almost":             "SQLite format 2\x00" + strings.Repeat("\x00", 5000),
		"only the beginning": sqliteMagic,
		"beginning and junk": sqliteMagic + strings.Repeat("junk", 5000),
	} {
		t.Run(name, func(t *testing.T) {
			path := fresh(t)
			require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
			_, err := Open(t.Context(), path)
			require.ErrorIs(t, err, job.ErrDamaged)
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, content, string(after))
		})
	}
}

// other makes an SQLite file by hand and gives its bytes.
func other(t *testing.T, path string, statements ...string) []byte {
	t.Helper()
	handle, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	for _, s := range statements {
		_, err := handle.ExecContext(t.Context(), s)
		require.NoError(t, err)
	}
	require.NoError(t, handle.Close())
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	return before
}

func TestSomebodyElsesDatabaseIsLeftAlone(t *testing.T) {
	for name, statements := range map[string][]string{
		"tables":               {"create table recipes (soup text)"},
		"only a version":       {"pragma user_version = 3"},
		"another's mark":       {"create table jobs (id bigint)", "pragma application_id = 77"},
		"our tables, no mark":  {"create table jobs (id bigint)", "create table events (job bigint)"},
		"another's with a log": {"pragma journal_mode = wal", "create table recipes (soup text)"},
	} {
		t.Run(name, func(t *testing.T) {
			path := fresh(t)
			before := other(t, path, statements...)
			_, err := Open(t.Context(), path)
			require.ErrorIs(t, err, job.ErrDamaged)
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, before, after)
		})
	}
}

func TestABodyThatWasTamperedWith(t *testing.T) {
	for name, statement := range map[string]string{
		"not JSON":      `update events set body = '{' where seq = 2`,
		"another place": `update events set body = replace(body, '"seq":2', '"seq":3') where seq = 2`,
		"a gap":         `delete from events where seq = 2`,
	} {
		t.Run(name, func(t *testing.T) {
			db := openAt(t, fresh(t), soon)
			id, err := db.Create(t.Context(), jobtest.Life())
			require.NoError(t, err)
			_, err = db.sql.ExecContext(t.Context(), statement)
			require.NoError(t, err)
			_, err = db.Load(t.Context(), id)
			require.ErrorIs(t, err, job.ErrDamaged)
		})
	}
}

func TestAnEventNeedsItsJob(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	_, err := db.sql.ExecContext(t.Context(), `insert into events values (9, 1, 0, 'noted', '{}')`)
	require.Error(t, err, "foreign keys are on")
}

func TestClosedRecordSaysSo(t *testing.T) {
	db, err := Open(t.Context(), fresh(t))
	require.NoError(t, err)
	require.NoError(t, db.Close())
	_, err = db.Load(t.Context(), 1)
	require.ErrorContains(t, err, "loading job 1")
}
