package recorddb

import (
	"fmt"
	"os"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// more are the migrations with one or more of a future program.
func more(sql ...string) []migration {
	out := steps()
	for i, s := range sql {
		out = append(out, migration{name: fmt.Sprintf("future %d", i), sql: s})
	}
	return out
}

// backups is the name of the backup that is made of a record whose version is
// newer than this program's by so many.
func backups(path string, newer int) string {
	return fmt.Sprintf("%s.backup-%d", path, len(steps())+newer)
}

// aged makes a record with one whole job, as this program leaves it.
func aged(t *testing.T) string {
	path := fresh(t)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	_, err = db.Create(t.Context(), jobtest.Life())
	require.NoError(t, err)
	require.NoError(t, db.Close())
	return path
}

func TestANewerRecordIsRefusedAndLeftAlone(t *testing.T) {
	path := aged(t)
	db, err := open(t.Context(), path, soon, more("create table shed (part text)"))
	require.NoError(t, err)
	require.NoError(t, db.Close())
	before, err := os.ReadFile(path)
	require.NoError(t, err)

	_, err = Open(t.Context(), path)
	require.ErrorIs(t, err, job.ErrNewer)
	require.ErrorContains(t, err, fmt.Sprintf("its version is %d, this program knows %d", len(steps())+1, len(steps())))
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, before, after)
}

func TestAnOlderRecordIsBackedUpThenBroughtUpToDate(t *testing.T) {
	path := aged(t)
	db, err := open(t.Context(), path, soon, more("create table shed (part text)", "create table box (part text); create index b on box (part)"))
	require.NoError(t, err)
	version, err := db.version(t.Context())
	require.NoError(t, err)
	require.Equal(t, len(steps())+2, version)
	_, err = db.sql.ExecContext(t.Context(), "insert into box values ('coil')")
	require.NoError(t, err)
	events, err := db.Load(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, jobtest.Life(), events)
	require.NoError(t, db.Close())

	require.NoFileExists(t, backups(path, 0)+".part")
	require.NoFileExists(t, backups(path, 1), "one backup, of what was there")
	info, err := os.Stat(backups(path, 0))
	require.NoError(t, err)
	if runtime.GOOS != "windows" { // which has no such modes
		require.EqualValues(t, 0o600, info.Mode().Perm())
	}
	kept, err := openAt(t, backups(path, 0), soon).Load(t.Context(), 1) // as the older program would
	require.NoError(t, err)
	require.Equal(t, jobtest.Life(), kept)
}

func TestANewRecordNeedsNoBackup(t *testing.T) {
	path := fresh(t)
	db, err := open(t.Context(), path, soon, more("create table shed (part text)"))
	require.NoError(t, err)
	require.NoError(t, db.Close())
	require.NoFileExists(t, path+".backup-0")
	require.NoFileExists(t, backups(path, 0))
}

func TestAMigrationThatGoesWrongChangesNothing(t *testing.T) {
	path := aged(t)
	_, err := open(t.Context(), path, soon, more("create table shed (part text)", "create table box (part text); nonsense"))
	require.ErrorContains(t, err, "future 1")

	db, err := open(t.Context(), path, soon, more("create table shed (part text)"))
	require.NoError(t, err, "the step before it stands")
	var boxes int
	require.NoError(t, db.sql.QueryRowContext(t.Context(), "select count(*) from sqlite_master where name = 'box'").Scan(&boxes))
	require.Zero(t, boxes)
	require.NoError(t, db.Close())

	// Tried again, with what a broken-off backup left lying about.
	require.NoError(t, os.WriteFile(backups(path, 1)+".part", []byte("half"), 0o600))
	db, err = open(t.Context(), path, soon, more("create table shed (part text)", "create table box (part text)"))
	require.NoError(t, err)
	require.NoError(t, db.Close())
	require.FileExists(t, backups(path, 0))
	require.FileExists(t, backups(path, 1))
}

func TestALockedRecordIsNotBroughtUpToDate(t *testing.T) {
	path := aged(t)
	release := hold(t, path)
	_, err := open(t.Context(), path, soon, more("create table shed (part text)"))
	require.ErrorIs(t, err, job.ErrLocked)
	release()
	openAt(t, path, soon)
}
