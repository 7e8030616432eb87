package recorddb

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/record"
)

// logs are all logs of a record by job, each event as its line.
func logs(t *testing.T, db *DB) map[int64][]string {
	t.Helper()
	out := map[int64][]string{}
	require.NoError(t, db.Each(t.Context(), func(l record.Log) error {
		for _, e := range l.Events {
			out[l.Job] = append(out[l.Job], string(job.Canonical([]job.Event{e})))
		}
		return nil
	}))
	return out
}

// busyShop is a record with a backup, and a day's work after it: job 1 goes on, others
// are new, pieces go into the bin and out again. now is what it held in the end.
func busyShop(t *testing.T) (path, backup string, then, now map[int64][]string) {
	t.Helper()
	path = fresh(t)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	first := begin(t, db)
	worked(t, db, 4)
	backup, err = db.BackupDaily(t.Context(), day)
	require.NoError(t, err)
	then = logs(t, db)
	_, err = db.Append(t.Context(), first, 1, []job.Event{jobtest.Note("a"), jobtest.Note("b"), {Kind: job.KindBinned, Binned: pointer(jobtest.Starter())}})
	require.NoError(t, err)
	worked(t, db, 12)
	taker := begin(t, db)
	drawn := job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: job.PieceOf(first, 4), Part: "starter"}}
	_, err = db.Append(t.Context(), taker, 1, []job.Event{drawn})
	require.NoError(t, err)
	now = logs(t, db)
	require.NoError(t, db.Close())
	return path, backup, then, now
}

func pointer[T any](v T) *T { return &v }

// held checks what a restored record holds: of each job no less than the backup, no
// more than there was, and nothing else; cards and bin as the logs say.
func held(t *testing.T, path string, then, now map[int64][]string) map[int64][]string {
	t.Helper()
	db := openAt(t, path, soon)
	got := logs(t, db)
	for id, lines := range got {
		require.LessOrEqual(t, len(lines), len(now[id]), "job %d", id)
		require.Equal(t, now[id][:len(lines)], lines, "job %d", id)
	}
	for id, lines := range then {
		require.GreaterOrEqual(t, len(got[id]), len(lines), "job %d", id)
	}
	checkCards(t, db)
	jobtest.Agree(t, db)
	return got
}

// Where only the beginning of the file is lost, nothing is.
func TestALostBeginningCostsNothing(t *testing.T) {
	path, backup, then, now := busyShop(t)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	clear(data[:headSize])
	require.NoError(t, os.WriteFile(path, data, 0o600))

	done, err := Restore(t.Context(), backup, path, day)
	require.NoError(t, err)
	require.True(t, done.Damaged)
	require.Equal(t, now, held(t, path, then, now))
	require.Equal(t, len(now), done.Jobs)
	require.Equal(t, len(now)-len(then), done.Begun())
	require.Equal(t, Rescue{Job: 1, Events: 3}, done.Saved[0])
	kept, err := os.ReadFile(done.Kept)
	require.NoError(t, err)
	require.Equal(t, data, kept, "the damaged file is as it was")
	for _, name := range names(t, path) {
		require.NotContains(t, name, ".part")
		require.NotContains(t, name, "wreck")
	}
}

// What a wreck says of its jobs is not believed: those that it lists no more come along
// by their events.
func TestJobsThatAreListedNoMoreAreSaved(t *testing.T) {
	path, backup, then, now := busyShop(t)
	other(t, path, `pragma foreign_keys = off`, `delete from jobs where id > 5`)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	clear(data[:headSize])
	require.NoError(t, os.WriteFile(path, data, 0o600))
	_, err = Restore(t.Context(), backup, path, day)
	require.NoError(t, err)
	require.Equal(t, now, held(t, path, then, now))
}

// Pages are overwritten, zeroed or cut off anywhere: never less than the backup, never
// something that was not there.
func TestWhateverIsLeftOfARecord(t *testing.T) {
	path, backup, then, now := busyShop(t)
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	copied, err := os.ReadFile(backup)
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(5, 8))
	more := 0
	for range 8 {
		data := append([]byte{}, whole...)
		at := r.IntN(len(data))
		part := data[at:min(at+1+r.IntN(20_000), len(data))]
		switch r.IntN(3) {
		case 0:
			clear(part)
		case 1:
			for i := range part {
				part[i] = byte(r.Uint32())
			}
		case 2:
			data = data[:at]
		}
		path := filepath.Join(t.TempDir(), "record.db")
		backup := path + itself + day
		require.NoError(t, os.WriteFile(path, data, 0o600))
		require.NoError(t, os.WriteFile(backup, copied, 0o600))
		_, err := Restore(t.Context(), backup, path, day)
		require.NoError(t, err)
		for id, lines := range held(t, path, then, now) {
			more += len(lines) - len(then[id])
		}
	}
	require.Positive(t, more, "nothing was ever taken along")
}

// Who goes back behind a sound record wants to.
func TestFromASoundRecordNothingIsTaken(t *testing.T) {
	path, backup, then, _ := busyShop(t)
	require.NoError(t, Sound(t.Context(), path))
	done, err := Restore(t.Context(), backup, path, day)
	require.NoError(t, err)
	require.False(t, done.Damaged)
	require.Empty(t, done.Saved)
	require.Equal(t, then, logs(t, openAt(t, path, soon)))
}

func TestSoundReadsAllOfIt(t *testing.T) {
	path, _, _, _ := busyShop(t)
	other(t, path, `update events set body = '{' where job = 3 and seq = 1`)
	require.ErrorIs(t, Sound(t.Context(), path), job.ErrDamaged)
}

// An emptied or missing record is not begun anew over its backups.
func TestNoNewRecordWhereBackupsLie(t *testing.T) {
	path, backup, then, _ := busyShop(t)
	for name, lose := range map[string]func() error{
		"missing": func() error { return os.Remove(path) },
		"empty":   func() error { return os.WriteFile(path, nil, 0o600) },
	} {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, lose())
			_, err := Open(t.Context(), path)
			require.ErrorIs(t, err, job.ErrDamaged)
			done, err := Restore(t.Context(), backup, path, day)
			require.NoError(t, err)
			require.Empty(t, done.Saved)
			db, err := Open(t.Context(), path)
			require.NoError(t, err)
			require.Equal(t, then, logs(t, db))
			require.NoError(t, db.Close())
		})
	}
}

// A record that is new today has a backup before its file holds anything.
func TestARecordThatIsStillInItsLog(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	begin(t, db)
	_, err := db.BackupDaily(t.Context(), day)
	require.NoError(t, err)
	jobs, err := openAt(t, path, soon).Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 1)
}

// A backup that can't be made costs none of those before.
func TestABackupThatFailsKeepsTheOthers(t *testing.T) {
	path, _, _, _ := busyShop(t)
	for _, d := range []string{"2026-10-01", "2026-10-02", "2026-10-03", "2026-10-04", "2026-10-05", "2026-10-06", "2026-10-07"} {
		require.NoError(t, os.WriteFile(path+itself+d, []byte("x"), 0o600))
	}
	before := names(t, path)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	info, err := os.Stat(path)
	require.NoError(t, err)
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteAt(make([]byte, info.Size()/2), info.Size()/2)
	require.NoError(t, err)
	require.NoError(t, f.Close())
	_, err = db.BackupDaily(t.Context(), "2026-11-04")
	require.ErrorIs(t, err, job.ErrDamaged)
	require.NoError(t, db.Close())
	require.Equal(t, before, names(t, path))
}
