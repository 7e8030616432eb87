package recorddb

import (
	"database/sql"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// A reading made durable, beside its yardstick in the same run: the least that SQLite
// can do for it, a row of the same bytes committed into a table with nothing else, with
// the same settings. The two take turns, so that a slow moment of the disk hits both.
// "x-bare" is the median of the one over that of the other.
func BenchmarkDurableReading(b *testing.B) {
	db, err := open(b.Context(), filepath.Join(b.TempDir(), "record.db"), waitForLock, steps())
	require.NoError(b, err)
	defer db.Close()
	id, err := db.Create(b.Context(), []job.Event{jobtest.Intake()})
	require.NoError(b, err)
	file := filepath.Join(b.TempDir(), "bare.db")
	require.NoError(b, os.WriteFile(file, nil, 0o600)) // connect makes none
	bare, err := connect(source(file, pragmas(waitForLock)...))
	require.NoError(b, err)
	defer bare.Close()
	_, err = bare.Exec(`create table rows (id integer primary key, body text not null)`)
	require.NoError(b, err)

	e := jobtest.Volts("pack_rest", 12.6, "12.6")
	body, err := job.Encode(e)
	require.NoError(b, err)
	var ours, least []time.Duration
	last := int64(1)
	for b.Loop() {
		begun := time.Now()
		got, err := db.Append(b.Context(), id, last, []job.Event{e})
		ours = append(ours, time.Since(begun))
		require.NoError(b, err)
		last = got[0].Seq
		begun = time.Now()
		require.NoError(b, commit(bare, string(body)))
		least = append(least, time.Since(begun))
	}
	b.ReportMetric(float64(median(ours).Microseconds()), "µs-median")
	b.ReportMetric(float64(median(least).Microseconds()), "µs-bare-median")
	b.ReportMetric(float64(median(ours))/float64(median(least)), "x-bare")
}

func commit(db *sql.DB, body string) error {
	tx, err := db.Begin()
	if err != nil {
		return err
	}
	if _, err := tx.Exec(`insert into rows (body) values ($1)`, body); err != nil {
		return err
	}
	return tx.Commit()
}

func median(times []time.Duration) time.Duration {
	slices.Sort(times)
	return times[len(times)/2]
}
