package recorddb

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

const day = "2026-11-03"

// names are the files in the folder of a record.
func names(t *testing.T, path string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestABackupIsARecord(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	worked(t, db, 10)
	release := hold(t, path) // another bench is writing
	name, err := db.Backup(t.Context(), "", day)
	require.NoError(t, err)
	release()
	require.Equal(t, path+".copy-2026-11-03", name)
	second, err := db.Backup(t.Context(), "", day)
	require.NoError(t, err)
	require.Equal(t, name+"-2", second)
	elsewhere := filepath.Join(t.TempDir(), "it's %41 a stick?.db")
	got, err := db.Backup(t.Context(), elsewhere, day)
	require.NoError(t, err)
	require.Equal(t, elsewhere, got)
	want := exported(t, db)
	for _, name := range []string{name, second, elsewhere} {
		if runtime.GOOS != "windows" {
			info, err := os.Stat(name)
			require.NoError(t, err)
			require.EqualValues(t, 0o600, info.Mode().Perm())
		}
		copied := openAt(t, name, soon)
		require.Equal(t, want, exported(t, copied))
		checkCards(t, copied)
	}
}

func TestABackupWritesOverNothing(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	begin(t, db)
	there := filepath.Join(t.TempDir(), "there")
	require.NoError(t, os.WriteFile(there, []byte("dear"), 0o600))
	for _, to := range []string{path, there, filepath.Dir(there)} {
		_, err := db.Backup(t.Context(), to, day)
		require.ErrorIs(t, err, fs.ErrExist, to)
	}
	kept, err := os.ReadFile(there)
	require.NoError(t, err)
	require.Equal(t, "dear", string(kept))
	_, err = db.Backup(t.Context(), filepath.Join(there+"-none", "x.db"), day)
	require.ErrorIs(t, err, fs.ErrNotExist)
}

func TestABackupThatIsCalledOffLeavesNothing(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	worked(t, db, 5)
	before := names(t, path)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := db.Backup(ctx, "", day)
	require.ErrorIs(t, err, context.Canceled)
	_, err = db.BackupDaily(ctx, day)
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, before, names(t, path))
}

// What is added while a copy is made is in it or not, but never in half; and the
// bench is not held up.
func TestABackupWhileABenchWrites(t *testing.T) {
	path := fresh(t)
	db, bench := openAt(t, path, waitForLock), openAt(t, path, waitForLock)
	worked(t, db, 60)
	id := begin(t, bench)
	stop, done := make(chan struct{}), make(chan int64)
	go func() {
		last := int64(1)
		defer func() { done <- last }()
		for {
			select {
			case <-stop:
				return
			default:
			}
			got, err := bench.Append(context.Background(), id, last, []job.Event{jobtest.Note("a"), jobtest.Note("b"), jobtest.Note("c")})
			if err != nil {
				return
			}
			last = got[2].Seq
		}
	}()
	for i := range 5 {
		name, err := db.Backup(t.Context(), "", fmt.Sprint(i))
		require.NoError(t, err)
		copied := openAt(t, name, soon)
		events, err := copied.Load(t.Context(), id)
		require.NoError(t, err)
		require.Equal(t, 1, len(events)%3, "three belong together")
		checkCards(t, copied)
	}
	close(stop)
	require.Greater(t, <-done, int64(1), "nothing was written meanwhile")
}

func TestOneBackupADaySevenAreKept(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	name, err := db.BackupDaily(t.Context(), day)
	require.NoError(t, err)
	require.Empty(t, name, "there is nothing to back up")
	begin(t, db)

	others := []string{path + ".backup-1", path + ".copy-2020-01-01", path + ".backup-x.1.part", path + ".backup-2020-13-45"}
	for _, o := range others {
		require.NoError(t, os.WriteFile(o, []byte("x"), 0o600))
	}
	dead := path + ".backup-2020-01-01.17.part"
	require.NoError(t, os.WriteFile(dead, []byte("x"), 0o600))
	long := time.Now().Add(-25 * time.Hour)
	require.NoError(t, os.Chtimes(dead, long, long))

	for i := range 9 {
		today := fmt.Sprintf("2026-11-%02d", i+1)
		name, err := db.BackupDaily(t.Context(), today)
		require.NoError(t, err)
		require.Equal(t, path+".backup-"+today, name)
		again, err := db.BackupDaily(t.Context(), today)
		require.NoError(t, err)
		require.Empty(t, again, "one a day")
	}
	var want []string
	for i := 9; i >= 3; i-- {
		want = append(want, fmt.Sprintf("%s.backup-2026-11-%02d", path, i))
	}
	require.Equal(t, want, Backups(path))
	for _, o := range others {
		require.FileExists(t, o)
	}
	require.NoFileExists(t, dead)

	// A clock that was wrong must not cost the backup that was just made.
	name, err = db.BackupDaily(t.Context(), "2019-05-05")
	require.NoError(t, err)
	require.FileExists(t, name)
	require.Len(t, Backups(path), Daily)
}

func TestRestore(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	worked(t, db, 6)
	then := exported(t, db)
	backup, err := db.Backup(t.Context(), "", day)
	require.NoError(t, err)
	begin(t, db)
	now := exported(t, db)
	_, err = Restore(t.Context(), backup, path, day)
	require.ErrorIs(t, err, job.ErrLocked, "it is open")
	require.Equal(t, now, exported(t, db))
	require.NoError(t, db.Close())

	done, err := Restore(t.Context(), backup, path, day)
	require.NoError(t, err)
	require.Equal(t, Restored{Jobs: 6, Kept: path + ".replaced-2026-11-03"}, done)
	require.Equal(t, then, exported(t, openAt(t, path, soon)))
	require.Equal(t, now, exported(t, openAt(t, done.Kept, soon)))
	require.Equal(t, then, exported(t, openAt(t, backup, soon)), "the backup stays")
	for _, name := range names(t, path) {
		require.NotContains(t, name, ".part")
	}
}

func TestRestoreWhereThereIsNoRecord(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	worked(t, db, 3)
	backup, err := db.Backup(t.Context(), "", day)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "new", "record.db")
	done, err := Restore(t.Context(), backup, path, day)
	require.NoError(t, err)
	require.Equal(t, Restored{Jobs: 3}, done)
	require.Equal(t, exported(t, db), exported(t, openAt(t, path, soon)))
}

// A record of an older program is restored as it is, and brought up to date when it
// is opened.
func TestRestoreAnOlderRecord(t *testing.T) {
	path := fresh(t)
	done, err := Restore(t.Context(), oldRecord(t, jobtest.Life()), path, day)
	require.NoError(t, err)
	require.Equal(t, 1, done.Jobs)
	checkCards(t, openAt(t, path, soon))
}

func TestARecordThatIsDamagedGivesWay(t *testing.T) {
	for name, spoil := range map[string]func([]byte) []byte{
		"its beginning is lost": func(b []byte) []byte { return append(make([]byte, 100), b[100:]...) },
		"it is cut off":         func(b []byte) []byte { return b[:len(b)/2] },
		"it is text":            func([]byte) []byte { return []byte("dear customer") },
	} {
		t.Run(name, func(t *testing.T) {
			path := fresh(t)
			db, err := Open(t.Context(), path)
			require.NoError(t, err)
			worked(t, db, 6)
			want := exported(t, db)
			backup, err := db.Backup(t.Context(), "", day)
			require.NoError(t, err)
			require.NoError(t, db.Close())
			whole, err := os.ReadFile(path)
			require.NoError(t, err)
			spoilt := spoil(whole)
			require.NoError(t, os.WriteFile(path, spoilt, 0o600))
			require.NoError(t, os.WriteFile(path+"-wal", []byte("of the old one"), 0o600))

			done, err := Restore(t.Context(), backup, path, day)
			require.NoError(t, err)
			require.Equal(t, want, exported(t, openAt(t, path, soon)))
			kept, err := os.ReadFile(done.Kept)
			require.NoError(t, err)
			if name != "it is cut off" { // of which SQLite could still take the log in
				require.Equal(t, spoilt, kept)
				require.FileExists(t, done.Kept+"-wal")
			}
		})
	}
}

func TestABadBackupIsRefused(t *testing.T) {
	source := fresh(t)
	db, err := Open(t.Context(), source)
	require.NoError(t, err)
	worked(t, db, 30)
	require.NoError(t, db.Close())
	whole, err := os.ReadFile(source)
	require.NoError(t, err)
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, data, 0o600))
		return path
	}
	zeroed := append([]byte{}, whole...)
	clear(zeroed[len(zeroed)/2 : len(zeroed)/2+8192])
	spoilt := write("spoilt", whole)
	other(t, spoilt, `update events set body = '{' where job = 3 and seq = 1`)
	gap := write("gap", whole)
	other(t, gap, `delete from events where job = 2 and seq = 1`)
	newer := write("newer", whole)
	other(t, newer, fmt.Sprintf("pragma user_version = %d", len(steps())+1))
	recipes := filepath.Join(dir, "recipes")
	other(t, recipes, "create table recipes (soup text)")

	path := aged(t)
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, c := range []struct {
		name, backup string
		err          error
	}{
		{"cut off", write("half", whole[:len(whole)/2+100]), job.ErrDamaged},
		{"pages lost", write("zeroed", zeroed), job.ErrDamaged},
		{"an event lost", spoilt, job.ErrDamaged},
		{"a gap", gap, job.ErrDamaged},
		{"text", write("text", []byte("dear customer")), job.ErrDamaged},
		{"empty", write("empty", nil), job.ErrDamaged},
		{"another's", recipes, job.ErrDamaged},
		{"newer", newer, job.ErrNewer},
		{"none", filepath.Join(dir, "none"), fs.ErrNotExist},
		{"the record itself", path, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Restore(t.Context(), c.backup, path, day)
			require.Error(t, err)
			if c.err != nil {
				require.ErrorIs(t, err, c.err)
			}
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, before, after)
			require.Equal(t, []string{"record.db"}, names(t, path))
		})
	}
}

// A name that can't even be looked at must not be counted up for ever.
func TestABackupThatCanHaveNoName(t *testing.T) {
	db := &DB{path: filepath.Join(t.TempDir(), strings.Repeat("r", 300))}
	_, err := db.Backup(t.Context(), "", day)
	require.Error(t, err)
}

// Whatever goes wrong halfway, the record is where it was, and nowhere else.
func TestARestoreThatFailsHalfwayPutsTheRecordBack(t *testing.T) {
	for _, withLog := range []bool{false, true} {
		path := filepath.Join(t.TempDir(), "record.db")
		require.NoError(t, os.WriteFile(path, []byte("no record any more"), 0o600))
		part := path + ".none" // so that its renaming fails
		kept := path + replaced + day
		if withLog {
			require.NoError(t, os.WriteFile(path+"-shm", []byte("shared"), 0o600))
			require.NoError(t, os.WriteFile(path+"-wal", []byte("log"), 0o600))
			require.NoError(t, os.Mkdir(kept+"-shm", 0o700)) // after the log was moved
			require.NoError(t, os.WriteFile(part, []byte("new"), 0o600))
		}
		_, err := replace(t.Context(), part, path, day)
		require.Error(t, err)
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, "no record any more", string(got))
		require.NoFileExists(t, kept)
		if withLog {
			require.FileExists(t, path+"-wal")
			require.NoFileExists(t, kept+"-wal")
		}
	}
}
