package recorddb

import (
	"database/sql"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/record"
)

// worked puts invented jobs on record as a bench would: begun, added to a little at
// a time, with something taken back now and then, some of them left open.
func worked(t *testing.T, db *DB, jobs int) {
	t.Helper()
	r := invented{rand.New(rand.NewPCG(3, 1))}
	for i := range int64(jobs) {
		life := r.life(1_600_000_000_000_000 + i/2*1_800_000_000) // two at a time
		if r.IntN(4) == 0 {
			life = life[:1+r.IntN(len(life)-1)]
		}
		id, err := db.Create(t.Context(), life[:1])
		require.NoError(t, err)
		last := int64(1)
		add := func(events ...job.Event) {
			got, err := db.Append(t.Context(), id, last, events)
			require.NoError(t, err)
			last = got[len(got)-1].Seq
		}
		for rest := life[1:]; len(rest) > 0; {
			n := 1 + r.IntN(min(3, len(rest)))
			add(rest[:n]...)
			if e := rest[n-1]; e.Kind == job.KindNoted && r.IntN(2) == 0 {
				add(job.Event{At: e.At, Kind: job.KindUndone, Undone: &job.Undone{Seq: last}})
			}
			rest = rest[n:]
		}
	}
}

// allCards are the cards of a record by way of its logs.
func allCards(t *testing.T, db *DB) []record.Card {
	t.Helper()
	var out []record.Card
	require.NoError(t, db.Each(t.Context(), func(l record.Log) error {
		out = append(out, record.CardOf(l.Job, l.Events))
		return nil
	}))
	return out
}

// checkCards looks that what is kept beside the logs is what follows from them.
func checkCards(t *testing.T, db *DB) {
	t.Helper()
	want := allCards(t, db)
	marks := map[int64][]string{}
	require.NoError(t, db.within(t.Context(), readOnly, "", func(tx *sql.Tx) error {
		return each(t.Context(), tx, "select job, mark from marks order by job, mark", nil, func(rows *sql.Rows) error {
			var id int64
			var mark string
			err := rows.Scan(&id, &mark)
			marks[id] = append(marks[id], mark)
			return err
		})
	}))
	var got []record.Card
	require.NoError(t, db.Cards(t.Context(), func(c record.Card) error {
		c.Marks = marks[c.ID]
		got = append(got, c)
		return nil
	}))
	require.Equal(t, want, got)
}

func unmarked(cards []record.Card) []record.Card {
	var out []record.Card
	for _, c := range cards {
		c.Marks = nil
		out = append(out, c)
	}
	return out
}

func TestSearchFindsWhatTheLogsSay(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	db := openAt(t, fresh(t), waitForLock)
	const jobs = 120
	worked(t, db, jobs)
	checkCards(t, db)
	cards := allCards(t, db)
	r := invented{rand.New(rand.NewPCG(4, 1))}
	found, full := 0, 0
	for range 300 {
		q := asked(r, jobs)
		q.Most = r.IntN(30)
		want := q.Pick(cards)
		got, err := db.Search(t.Context(), q)
		require.NoError(t, err)
		require.Equal(t, unmarked(want.Cards), got.Cards, "%+v", q)
		require.Equal(t, want.More, got.More, "%+v", q)
		found += len(want.Cards)
		if want.More > 0 {
			full++
		}
	}
	require.Greater(t, found, 300, "the questions found hardly anything")
	require.Greater(t, full, 15)
}

func TestSearchTakesEverythingLiterally(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	in := jobtest.Intake()
	in.Intake.Machine, in.Intake.System = "50 percent off_road", "a_b%c"
	_, err := db.Create(t.Context(), []job.Event{in, jobtest.Note("'; drop table marks; --")})
	require.NoError(t, err)
	begin(t, db)
	for _, c := range []struct {
		any  record.Any
		jobs int
	}{
		{record.Any{Is: []string{record.Mark(record.OfSystem, "a_b%c")}}, 1},
		{record.Any{Is: []string{record.Mark(record.OfSystem, "axb%c")}}, 0},
		{record.Any{Begins: []string{record.Mark(record.OfSystem, "a_")}}, 1},
		{record.Any{Begins: []string{record.Mark(record.OfSystem, "%")}}, 0},
		{record.Any{Begins: []string{record.Mark(record.OfSystem, "_")}}, 0},
		{record.Any{Begins: []string{"drop"}}, 1},
		{record.Any{Begins: []string{"'; drop"}}, 0},
		{record.Any{Begins: []string{`\`}}, 0},
		{record.Any{}, 0},
	} {
		// Once by itself, and once as what has to hold of jobs found by another.
		for _, q := range []record.Query{
			{All: []record.Any{c.any}, Most: 9},
			{All: []record.Any{{Is: []string{record.Mark(record.OfOutcome, record.StillOpen)}}, c.any}, Most: 9},
		} {
			a, err := db.Search(t.Context(), q)
			require.NoError(t, err)
			require.Len(t, a.Cards, c.jobs, "%+v", c.any)
		}
	}
}

func TestTheNewestJobs(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	life := jobtest.Life()
	for i, open := range []bool{false, true, false, false, true} {
		log := jobtest.LifeOf(int64(i) + 1)
		if open {
			log = log[:2]
		}
		for k := range log {
			log[k].At = life[k].At + int64(i)
		}
		_, err := db.Create(t.Context(), log)
		require.NoError(t, err)
	}
	all, err := db.Jobs(t.Context())
	require.NoError(t, err)
	jobs, older, err := db.Newest(t.Context(), 2)
	require.NoError(t, err)
	require.Equal(t, 1, older)
	require.Equal(t, []job.Summary{all[4], all[1], all[3], all[2]}, jobs)
	jobs, older, err = db.Newest(t.Context(), 20)
	require.NoError(t, err)
	require.Zero(t, older)
	require.Len(t, jobs, 5)
}

// oldRecord makes a record as the first program left it: without cards.
func oldRecord(t *testing.T, logs ...[]job.Event) string {
	t.Helper()
	path := fresh(t)
	first, err := migrationFiles.ReadFile("migrations/0001_jobs.sql")
	require.NoError(t, err)
	statements := []string{string(first), fmt.Sprintf("pragma application_id = %d", appID), "pragma user_version = 1"}
	for i, log := range logs {
		statements = append(statements, fmt.Sprintf("insert into jobs values (%d)", i+1))
		for _, e := range log {
			body, err := job.Encode(e)
			require.NoError(t, err)
			statements = append(statements, fmt.Sprintf("insert into events values (%d, %d, %d, '%s', '%s')",
				i+1, e.Seq, e.At, e.Kind, strings.ReplaceAll(string(body), "'", "''")))
		}
	}
	other(t, path, statements...)
	return path
}

func TestJobsOfAnOlderRecordAreFound(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	life := jobtest.Life()
	path := oldRecord(t, life, life[:2])
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	checkCards(t, db)
	a, err := db.Search(t.Context(), record.Query{All: []record.Any{{Begins: []string{"smell"}}}, Most: 5})
	require.NoError(t, err)
	require.Len(t, a.Cards, 1)
	_, err = db.Append(t.Context(), 2, 2, []job.Event{jobtest.Note("smells, too")})
	require.NoError(t, err)
	require.NoError(t, db.Close())
	require.FileExists(t, path+".backup-1")

	// Cards that a migration took away come back, those that are there stay.
	db = openAt(t, path, soon)
	for _, s := range []string{"delete from marks where job = 1", "delete from cards where job = 1"} {
		_, err = db.sql.ExecContext(t.Context(), s)
		require.NoError(t, err)
	}
	checkCards(t, openAt(t, path, soon))
}

// One event that can't be read costs its words, not the record.
func TestADamagedEventIsLeftOutOfTheCard(t *testing.T) {
	path := oldRecord(t, jobtest.Life())
	other(t, path, `update events set body = '{' where seq = 12`)
	db := openAt(t, path, soon)
	a, err := db.Search(t.Context(), record.Query{All: []record.Any{{Begins: []string{"grey"}}}, Most: 5})
	require.NoError(t, err)
	require.Len(t, a.Cards, 1)
	require.Equal(t, job.Proved, a.Cards[0].Outcome)
	_, err = db.Load(t.Context(), 1)
	require.ErrorIs(t, err, job.ErrDamaged)
	require.ErrorIs(t, db.Each(t.Context(), func(record.Log) error { return nil }), job.ErrDamaged)
}

func TestWhatWasNotKeptIsNotFound(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	id := begin(t, db)
	_, err := db.Append(t.Context(), id, 1, []job.Event{jobtest.Note("eyelet"), jobtest.Note("")})
	require.Error(t, err)
	checkCards(t, db)
}
