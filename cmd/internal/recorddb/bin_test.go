package recorddb

import (
	"database/sql"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// older are the migrations before the one that made the parts bin.
func older() []migration {
	all := steps()
	return all[:slices.IndexFunc(all, func(m migration) bool { return strings.HasSuffix(m.name, "_bin.sql") })]
}

// before makes a record as it was before there was a table of the parts bin, with
// these logs.
func before(t *testing.T, logs ...[]job.Event) string {
	t.Helper()
	return madeBy(t, older(), logs...)
}

// madeBy is a record that a program of before made, which knew only some migrations.
func madeBy(t *testing.T, known []migration, logs ...[]job.Event) string {
	t.Helper()
	path := fresh(t)
	db, err := open(t.Context(), path, soon, known)
	require.NoError(t, err)
	for i, log := range logs {
		_, err := db.sql.ExecContext(t.Context(), `insert into jobs (id) values ($1)`, i+1)
		require.NoError(t, err)
		for at, e := range log {
			e.Seq = int64(at) + 1
			body, err := job.Encode(e)
			require.NoError(t, err)
			_, err = db.sql.ExecContext(t.Context(), `insert into events values ($1, $2, $3, $4, $5)`, i+1, e.Seq, e.At, string(e.Kind), string(body))
			require.NoError(t, err)
		}
	}
	require.NoError(t, db.Close())
	return path
}

func undone(seq int64) job.Event {
	return job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: seq}}
}

// A record of before says in its events what was binned and drawn.
func TestTheBinIsFilledFromTheEventsOfBefore(t *testing.T) {
	starter := jobtest.Starter()
	binned := job.Event{At: 5, Kind: job.KindBinned, Binned: &starter}
	drawn := func(piece string) job.Event {
		return job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: piece, Part: "starter"}}
	}
	db := openAt(t, before(
		t,
		[]job.Event{jobtest.Intake(), drawn("2.2"), drawn("2.3"), undone(3), drawn("9.9")}, // the older job took it
		[]job.Event{jobtest.Intake(), binned, binned, binned, undone(4), binned},
		jobtest.LifeOf(3),
	), soon)

	var names []string
	taken := map[string]int64{}
	pieces, err := db.Bin(t.Context())
	require.NoError(t, err)
	for _, p := range pieces {
		names = append(names, p.Name)
		if !p.Free() {
			taken[p.Name] = p.Drawn
		}
	}
	require.Equal(t, []string{"2.2", "2.3", "2.6", "3.21"}, names)
	require.Equal(t, map[string]int64{"2.2": 1, "3.21": 3}, taken)
	require.Equal(t, (job.Shelved{Name: "2.3", Job: 2, Seq: 3}).Put(starter, 5), pieces[1])

	_, err = db.Append(t.Context(), 1, 5, []job.Event{undone(2), undone(5), drawn("2.6")})
	require.NoError(t, err, "what was filled in moves like all else, and what never was there is left")
	name, err := db.Shelve(t.Context(), starter, 7)
	require.NoError(t, err)
	require.Equal(t, "b1", name)
}

// What can't be read is told when its job is loaded; the record opens.
func TestADamagedEventDoesNotKeepTheBinFromBeingFilled(t *testing.T) {
	starter := jobtest.Starter()
	binned := job.Event{Kind: job.KindBinned, Binned: &starter}
	path := before(t, []job.Event{jobtest.Intake(), binned, binned})
	db, err := open(t.Context(), path, soon, older())
	require.NoError(t, err)
	_, err = db.sql.ExecContext(t.Context(), `update events set body = '{' where seq = 2`)
	require.NoError(t, err)
	require.NoError(t, db.Close())

	db = openAt(t, path, soon)
	pieces, err := db.Bin(t.Context())
	require.NoError(t, err)
	require.Len(t, pieces, 1)
	require.Equal(t, "1.3", pieces[0].Name)
	_, err = db.Load(t.Context(), 1)
	require.ErrorIs(t, err, job.ErrDamaged)
}

func TestAPieceThatWasTamperedWith(t *testing.T) {
	for name, statement := range map[string]string{
		"not JSON":      `update bin set body = '{'`,
		"another event": `update bin set body = '{"seq":1,"at":0,"kind":"noted","noted":{"text":"x"}}'`,
	} {
		t.Run(name, func(t *testing.T) {
			db := openAt(t, fresh(t), soon)
			_, err := db.Shelve(t.Context(), jobtest.Starter(), 1)
			require.NoError(t, err)
			_, err = db.sql.ExecContext(t.Context(), statement)
			require.NoError(t, err)
			_, err = db.Bin(t.Context())
			require.ErrorIs(t, err, job.ErrDamaged)
		})
	}
}

func TestEveryFillBelongsToAMigration(t *testing.T) {
	used := 0
	for _, m := range steps() {
		if m.fill != nil {
			used++
		}
	}
	require.Len(t, fills, used)
}

// The jobs and the bin of a full disk still agree.
func TestAFullDiskMovesNoPiece(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	id := begin(t, db)
	starter := jobtest.Starter()
	_, err := db.sql.ExecContext(t.Context(), `pragma max_page_count = 1`)
	require.NoError(t, err)
	for range 200 {
		var events []job.Event
		events, err = db.Load(t.Context(), id)
		require.NoError(t, err)
		if _, err = db.Append(t.Context(), id, int64(len(events)), []job.Event{{Kind: job.KindBinned, Binned: &starter}}); err != nil {
			break
		}
	}
	require.ErrorIs(t, err, job.ErrFull)
	jobtest.Agree(t, db)
}

// On a server with several writers both may have seen a piece free: the first to
// write has it.
func TestAStaleViewOfAPieceTakesNothing(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	one, two := begin(t, db), begin(t, db)
	name, err := db.Shelve(t.Context(), jobtest.Starter(), 1)
	require.NoError(t, err)
	err = db.within(t.Context(), nil, "testing", func(tx *sql.Tx) error {
		on := shelf{t.Context(), tx}
		seen, ok, err := on.Piece(name)
		require.NoError(t, err)
		require.True(t, ok)
		seen.Drawn, seen.DrawnBy = one, 2
		require.NoError(t, on.Change(seen))
		seen.Drawn = two
		return on.Change(seen)
	})
	require.ErrorIs(t, err, job.ErrTaken)
	pieces, err := db.Bin(t.Context())
	require.NoError(t, err)
	require.True(t, pieces[0].Free(), "nothing of the call was kept")
}
