package recorddb

import (
	"database/sql"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// Jobs of another record bring their pieces along: those that they put in, out
// where one of them drew it. Of the pieces that lie here they draw none.
func TestJobsThatComeWholeBringTheirPieces(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	starter := jobtest.Starter()
	binned := job.Event{At: 3, Kind: job.KindBinned, Binned: &starter}
	drawn := func(piece string) job.Event {
		return job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: piece, Part: "starter"}}
	}
	_, err := db.Create(t.Context(), []job.Event{jobtest.Intake(), binned})
	require.NoError(t, err)
	name, err := db.Shelve(t.Context(), starter, 1)
	require.NoError(t, err)

	err = db.within(t.Context(), nil, "testing", func(tx *sql.Tx) error {
		for i, log := range [][]job.Event{
			{jobtest.Intake(), drawn("3.2"), drawn("3.4"), undone(3), drawn("1.2"), drawn(name), drawn("8.8")},
			{jobtest.Intake(), binned, binned, binned, undone(3)},
		} {
			events, err := job.Number(0, false, log)
			require.NoError(t, err)
			_, err = tx.ExecContext(t.Context(), `insert into jobs (id) values ($1)`, i+2)
			require.NoError(t, err)
			require.NoError(t, insert(t.Context(), tx, int64(i)+2, events))
		}
		return stock(t.Context(), tx, []int64{2, 3})
	})
	require.NoError(t, err)
	pieces, err := db.Bin(t.Context())
	require.NoError(t, err)
	where := map[string]int64{}
	for _, p := range pieces {
		where[p.Name] = p.Drawn
	}
	require.Equal(t, map[string]int64{"1.2": 0, "b1": 0, "3.2": 2, "3.4": 0}, where)

	_, err = db.Append(t.Context(), 2, 7, []job.Event{undone(6), undone(2)})
	require.NoError(t, err, "what it drew elsewhere moves nothing here")
	pieces, err = db.Bin(t.Context())
	require.NoError(t, err)
	for _, p := range pieces {
		require.True(t, p.Free(), p.Name)
	}
}
