package jobtest

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// eachBench is how many events each bench adds.
const eachBench = 40

// Benches has two benches add to one job at the same time, a through one Store
// and b through another (or the same), and looks that every event is there
// once, in the order of its bench. Run it with -race.
func Benches(t *testing.T, a, b job.Store) {
	id := begin(t, a)
	var wg sync.WaitGroup
	errs := make([]error, 2)
	for i, s := range []job.Store{a, b} {
		wg.Go(func() { errs[i] = bench(t.Context(), s, id, i) })
	}
	wg.Wait()
	require.NoError(t, errors.Join(errs...))

	events := load(t, b, id)
	require.Len(t, events, 1+2*eachBench)
	next := [2]int{}
	for i, e := range events[1:] {
		require.EqualValues(t, i+2, e.Seq)
		var who, n int
		_, err := fmt.Sscanf(e.Noted.Text, "bench %d note %d", &who, &n)
		require.NoError(t, err)
		require.Equal(t, next[who], n, "bench %d", who)
		next[who]++
	}
}

// bench adds its events one after another, and loads again when another was
// faster, as a person would.
func bench(ctx context.Context, s job.Store, id int64, who int) error {
	last := int64(1)
	for n := 0; n < eachBench; {
		got, err := s.Append(ctx, id, last, []job.Event{Note(fmt.Sprintf("bench %d note %d", who, n))})
		switch {
		case err == nil:
			last = got[0].Seq
			n++
		case errors.Is(err, job.ErrConflict):
			events, err := s.Load(ctx, id)
			if err != nil {
				return err
			}
			last = int64(len(events))
		default:
			return err
		}
	}
	return nil
}
