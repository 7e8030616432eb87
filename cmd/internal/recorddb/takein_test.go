package recorddb

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/record"
)

// exported is a record as an export.
func exported(t *testing.T, db *DB) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, record.Write(&out, func(take func(record.Log) error) error { return db.Each(t.Context(), take) }))
	return out.String()
}

// takenIn takes an export in.
func takenIn(t *testing.T, db *DB, text string, try bool) (TakenIn, error) {
	t.Helper()
	each := func(take func(record.Log) error) error {
		r := record.NewReader(strings.NewReader(text))
		for l, ok := r.Next(); ok; l, ok = r.Next() {
			if err := take(l); err != nil {
				return err
			}
		}
		require.Empty(t, r.Problems)
		return nil
	}
	var heads []record.Head
	require.NoError(t, each(func(l record.Log) error { heads = append(heads, record.HeadOf(l)); return nil }))
	return db.TakeIn(t.Context(), heads, each, try)
}

// lives are jobs that differ in their owner.
func lives(owners ...string) [][]job.Event {
	var out [][]job.Event
	for i, owner := range owners {
		log := jobtest.Unbinned(jobtest.Life())
		log[0].Intake.Owner = owner
		log[0].At += int64(i)
		out = append(out, log)
	}
	return out
}

func TestAnExportTakenInIsTheSameExport(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	from, to := openAt(t, fresh(t), soon), openAt(t, fresh(t), soon)
	worked(t, from, 40)
	text := exported(t, from)
	taken, err := takenIn(t, to, text, false)
	require.NoError(t, err)
	require.Len(t, taken.New, 40)
	require.Equal(t, text, exported(t, to), "into an empty record even the numbers are the same")
	checkCards(t, to)
}

func TestNewNumbersAndTheNamesOfPieces(t *testing.T) {
	from, to := openAt(t, fresh(t), soon), openAt(t, fresh(t), soon)
	begin(t, to)
	begin(t, to)
	for i := range int64(3) {
		log := jobtest.LifeOf(i + 1) // each draws the piece that it put there
		log[0].At += i + 1
		_, err := from.Create(t.Context(), log)
		require.NoError(t, err)
	}
	taken, err := takenIn(t, to, exported(t, from), false)
	require.NoError(t, err)
	require.Equal(t, map[int64]int64{1: 3, 2: 4, 3: 5}, taken.Numbers)
	for was, is := range taken.Numbers {
		want, err := from.Load(t.Context(), was)
		require.NoError(t, err)
		got, err := to.Load(t.Context(), is)
		require.NoError(t, err)
		require.Equal(t, strings.ReplaceAll(string(job.Canonical(want)), fmt.Sprintf(`"%d.21"`, was), fmt.Sprintf(`"%d.21"`, is)), string(job.Canonical(got)))
	}
}

func TestWhatIsHereAlreadyIsNotTakenInAgain(t *testing.T) {
	logs := lives("a", "b", "c")
	from, to := openAt(t, fresh(t), soon), openAt(t, fresh(t), soon)
	for i, log := range logs {
		_, err := from.Create(t.Context(), log)
		require.NoError(t, err)
		if i == 1 {
			_, err := to.Create(t.Context(), log)
			require.NoError(t, err)
		}
	}
	_, err := to.Append(t.Context(), 1, int64(len(logs[1])), []job.Event{jobtest.Note("came back in spring")})
	require.NoError(t, err)
	text := exported(t, from)
	before := exported(t, to)

	taken, err := takenIn(t, to, text, true)
	require.NoError(t, err)
	require.Equal(t, []int64{1, 3}, taken.New)
	require.Equal(t, map[int64]int64{1: 2, 2: 1, 3: 3}, taken.Numbers)
	require.Equal(t, before, exported(t, to), "it was only tried")

	_, err = takenIn(t, to, text, false)
	require.NoError(t, err)
	after := exported(t, to)
	again, err := takenIn(t, to, text, false)
	require.NoError(t, err)
	require.Empty(t, again.New)
	require.Equal(t, after, exported(t, to), "a second time there is nothing new")
}

func TestAJobThatWentOnOtherwiseIsRefusedWithAllOthers(t *testing.T) {
	logs := lives("a", "b", "c")
	from, to := openAt(t, fresh(t), soon), openAt(t, fresh(t), soon)
	for _, log := range logs {
		_, err := from.Create(t.Context(), log)
		require.NoError(t, err)
	}
	_, err := to.Create(t.Context(), logs[2][:5]) // the export has more of it
	require.NoError(t, err)
	other := append([]job.Event{}, logs[1][:3]...)
	other = append(other, jobtest.Note("otherwise"))
	_, err = to.Create(t.Context(), other)
	require.NoError(t, err)
	before := exported(t, to)
	taken, err := takenIn(t, to, exported(t, from), false)
	require.NoError(t, err)
	require.Equal(t, []Differs{{2, 2}, {3, 1}}, taken.Differ)
	require.Equal(t, before, exported(t, to))
}

// Two jobs may begin with the same event: taken in once, each is found again.
func TestTwins(t *testing.T) {
	from, to := openAt(t, fresh(t), soon), openAt(t, fresh(t), soon)
	life := jobtest.Unbinned(jobtest.Life())
	for _, log := range [][]job.Event{life[:2], life} {
		_, err := from.Create(t.Context(), log)
		require.NoError(t, err)
	}
	text := exported(t, from)
	taken, err := takenIn(t, to, text, false)
	require.NoError(t, err)
	require.Len(t, taken.New, 2)
	taken, err = takenIn(t, to, text, false)
	require.NoError(t, err)
	require.Empty(t, taken.New)
	require.Empty(t, taken.Differ)
}

func TestAFileThatChangedMeanwhileTakesNothingIn(t *testing.T) {
	to := openAt(t, fresh(t), soon)
	logs := lives("a", "b")
	heads := []record.Head{record.HeadOf(record.Log{Job: 1, Events: logs[0]})}
	_, err := to.TakeIn(t.Context(), heads, func(take func(record.Log) error) error {
		if err := take(record.Log{Job: 1, Events: logs[0]}); err != nil {
			return err
		}
		return take(record.Log{Job: 2, Events: logs[1]})
	}, false)
	require.ErrorContains(t, err, "was changed meanwhile")
	jobs, err := to.Jobs(t.Context())
	require.NoError(t, err)
	require.Empty(t, jobs)
}

func TestALockedRecordTakesNothingIn(t *testing.T) {
	from := openAt(t, fresh(t), soon)
	begin(t, from)
	text := exported(t, from)
	path := fresh(t)
	to := openAt(t, path, soon)
	release := hold(t, path)
	_, err := takenIn(t, to, text, false)
	require.ErrorIs(t, err, job.ErrLocked)
	_, err = takenIn(t, to, text, true)
	require.NoError(t, err, "trying needs no lock")
	release()
	_, err = takenIn(t, to, text, false)
	require.NoError(t, err)
}
