package jobtest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// BothWant has two benches, each with a job of its own, draw the same pieces at
// the same time, a through one Store and b through another (or the same): each
// piece goes to one of them, and the other is told. Run it with -race.
func BothWant(t *testing.T, a, b job.Store) {
	const pieces = 20
	for range pieces {
		_, err := a.Shelve(t.Context(), Starter(), 1)
		require.NoError(t, err)
	}
	jobs := []int64{begin(t, a), begin(t, a)}
	var wg sync.WaitGroup
	got, errs := make([][]string, 2), make([]error, 2)
	for i, s := range []job.Store{a, b} {
		wg.Go(func() { got[i], errs[i] = drawAll(t.Context(), s, jobs[i], pieces) })
	}
	wg.Wait()
	require.NoError(t, errors.Join(errs...))
	all := slices.Concat(got[0], got[1])
	slices.Sort(all)
	require.Len(t, slices.Compact(all), pieces, "each piece once: %v", got)
	for _, p := range bin(t, b) {
		which := slices.Index(jobs, p.Drawn)
		require.Contains(t, got[which], p.Name)
	}
}

// drawAll tries to draw every piece, and gives those that it got.
func drawAll(ctx context.Context, s job.Store, id int64, pieces int) ([]string, error) {
	var got []string
	for n := range pieces {
		name := fmt.Sprintf("b%d", n+1)
		_, err := s.Append(ctx, id, int64(len(got))+1, []job.Event{drawEvent(name)})
		switch {
		case err == nil:
			got = append(got, name)
		case !errors.Is(err, job.ErrTaken):
			return got, err
		}
	}
	return got, nil
}

// Agree looks that the bin and the logs say the same: what a log put in lies
// there, and what is out for a job is what its log drew.
func Agree(t *testing.T, s job.Store) {
	t.Helper()
	in, out := logsSay(t, s)
	pieces, err := s.Bin(t.Context())
	require.NoError(t, err)
	names, drawn := map[string]bool{}, map[string]int64{}
	for _, p := range pieces {
		require.False(t, names[p.Name], "%s twice", p.Name)
		names[p.Name] = p.Job != 0
		if p.Drawn != 0 {
			drawn[p.Name] = p.Drawn
		}
	}
	for name, ofJob := range names {
		require.Equal(t, ofJob, in[name], "piece %s", name)
	}
	require.Equal(t, out, drawn)
	for name := range in {
		require.Contains(t, names, name)
	}
}

// logsSay is what all logs together say of the bin.
func logsSay(t *testing.T, s job.Store) (in map[string]bool, out map[string]int64) {
	t.Helper()
	in, out = map[string]bool{}, map[string]int64{}
	jobs, err := s.Jobs(t.Context())
	require.NoError(t, err)
	for _, j := range jobs {
		facts, err := job.Fold(load(t, s, j.ID))
		require.NoError(t, err)
		for _, p := range facts.Binned {
			in[job.PieceOf(j.ID, p.Seq)] = true
		}
		for _, d := range facts.Drawn {
			out[d.Piece] = j.ID
		}
	}
	return in, out
}
