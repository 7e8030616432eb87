package jobtest

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

func binIsAtomic(t *testing.T, s job.Store) {
	a, b := begin(t, s), begin(t, s)
	add(t, s, a, binEvent(Starter()), binEvent(Starter()))
	add(t, s, b, drawEvent("1.3"))
	// The first two could be done; the last can't.
	refusedAs(t, s, job.ErrTaken, b, binEvent(Starter()), drawEvent("1.2"), drawEvent("1.3"))
	refusedAs(t, s, job.ErrNoPiece, b, undoEvent(2), drawEvent("1.2"), drawEvent("9.9"))
	before := bin(t, s)
	_, err := s.Append(t.Context(), b, 1, []job.Event{drawEvent("1.2")})
	require.ErrorIs(t, err, job.ErrConflict, "an old view of the job moves nothing")
	_, err = s.Append(t.Context(), b, 2, []job.Event{drawEvent("1.2"), Note("")})
	require.Error(t, err)
	require.Equal(t, before, bin(t, s))
}

func beginsWithPieces(t *testing.T, s job.Store) {
	id, err := s.Create(t.Context(), []job.Event{Intake(), binEvent(Starter()), binEvent(Starter()), drawEvent("1.2")})
	require.NoError(t, err)
	require.Equal(t, id, bin(t, s)[0].Drawn)
	for _, piece := range []string{"1.2", "5.5"} {
		_, err = s.Create(t.Context(), []job.Event{Intake(), drawEvent(piece)})
		require.Error(t, err)
	}
	require.EqualValues(t, 2, begin(t, s), "a job whose pieces can't be had is no job")
	require.Len(t, bin(t, s), 2)
}

func binHostile(t *testing.T, s job.Store) {
	text := "'; drop table bin; -- \x1b[2J \x00 \u202e <b>%s $1 ?1\r\n" + strings.Repeat("long ", 10_000)
	piece := job.Binned{Part: text, Words: text, Shown: []string{text, "µΩ"}, Asking: text, Currency: text, Place: text}
	want, err := job.Loose(1, piece, math.MinInt64)
	require.NoError(t, err)
	_, err = s.Shelve(t.Context(), piece, math.MinInt64)
	require.NoError(t, err)
	require.Equal(t, want, bin(t, s)[0])
	want.Gone = job.Gone{How: job.Sold, Why: text, At: math.MaxInt64}
	require.NoError(t, s.Discard(t.Context(), "b1", want.Gone))
	require.Equal(t, want, bin(t, s)[0])
}

func binUnshared(t *testing.T, s job.Store) {
	id := begin(t, s)
	piece, event := Starter(), binEvent(Starter())
	_, err := s.Shelve(t.Context(), piece, 1)
	require.NoError(t, err)
	add(t, s, id, event)
	before := bin(t, s)
	piece.Shown[0], event.Binned.Shown[0] = "changed", "changed"
	bin(t, s)[0].Shown[0], bin(t, s)[1].Shown[0] = "changed", "changed"
	require.Equal(t, Starter().Shown, before[0].Shown)
	require.Equal(t, before, bin(t, s))
}

func binCalledOff(t *testing.T, s job.Store) {
	begin(t, s)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.Bin(ctx)
	require.ErrorIs(t, err, context.Canceled)
	_, err = s.Shelve(ctx, Starter(), 1)
	require.ErrorIs(t, err, context.Canceled)
	require.ErrorIs(t, s.Discard(ctx, "b1", job.Gone{How: job.Sold, Why: "x"}), context.Canceled)
	require.Empty(t, bin(t, s))
}

// A log can hold the same undo twice: two programs asked at once. It opens no
// more then, but it must not put a piece back that another draw took.
func undoneTwice(t *testing.T, s job.Store) {
	a, b := begin(t, s), begin(t, s)
	add(t, s, a, binEvent(Starter()))
	add(t, s, b, drawEvent("1.2"), undoEvent(2), drawEvent("1.2"))
	_, err := s.Append(t.Context(), b, 4, []job.Event{undoEvent(2)})
	require.NoError(t, err)
	pieces, err := s.Bin(t.Context())
	require.NoError(t, err)
	require.EqualValues(t, 4, pieces[0].DrawnBy)
}

func swapped(t *testing.T, s job.Store) {
	a, b := begin(t, s), begin(t, s)
	add(t, s, a, binEvent(Starter()), binEvent(Starter()))
	add(t, s, b, drawEvent("1.2"))
	add(t, s, b, undoEvent(2), drawEvent("1.3"), drawEvent("1.2"))
	pieces := bin(t, s)
	require.Equal(t, []int64{5, 4}, []int64{pieces[0].DrawnBy, pieces[1].DrawnBy})
}

func ownPiece(t *testing.T, s job.Store) {
	id := begin(t, s)
	add(t, s, id, binEvent(Starter()))
	add(t, s, id, drawEvent("1.2"))
	require.Equal(t, id, bin(t, s)[0].Drawn)
	refusedAs(t, s, job.ErrTaken, id, undoEvent(2))
	add(t, s, id, undoEvent(3))
	add(t, s, id, undoEvent(2))
	require.Empty(t, bin(t, s))
}
