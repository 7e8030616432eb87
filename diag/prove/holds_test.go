package prove

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatAProofMustHold(t *testing.T) {
	for name, c := range map[string]struct {
		kind   Kind
		counts Counts
		slip   float64
		holds  bool
	}{
		"all found":                        {Judged, Counts{Draws: 100, Found: 100}, 0, true},
		"in a group":                       {Judged, Counts{Draws: 100, Found: 60, Group: 40}, 0, true},
		"two of a hundred close":           {Judged, Counts{Draws: 100, Found: 98, Close: 2}, 0, true},
		"three of a hundred close":         {Judged, Counts{Draws: 100, Found: 97, Close: 3}, 0, false},
		"close, where the hand slips":      {Judged, Counts{Draws: 100, Found: 97, Close: 3}, 0.01, true},
		"one of four close":                {Judged, Counts{Draws: 4, Found: 3, Close: 1}, 0, false},
		"missed":                           {Judged, Counts{Draws: 100, Found: 99, Missed: 1}, 0, false},
		"wrong":                            {Judged, Counts{Draws: 100, Found: 99, Wrong: 1}, 0, false},
		"a single fault left behind":       {Judged, Counts{Draws: 100, Found: 99, Masked: 1}, 0, false},
		"the second of two left behind":    {Pair, Counts{Draws: 100, Found: 99, Masked: 1}, 0, true},
		"something wrong of another fault": {Other, Counts{Draws: 100, Wrong: 1}, 0, false},
	} {
		r := Report{Options: Options{Pairs: c.kind == Pair, Slip: c.slip}, Totals: c.counts}
		r.Trees = []TreeReport{{Faults: []FaultReport{{Kind: c.kind, Counts: c.counts}}}}
		require.Equal(t, c.holds, r.Holds(), name)
	}
	// Few of all, and many of one fault.
	r := Report{Totals: Counts{Draws: 1000, Found: 990, Close: 10}}
	r.Trees = []TreeReport{{Faults: []FaultReport{{Kind: Judged, Counts: Counts{Draws: 100, Found: 90, Close: 10}}}}}
	require.False(t, r.Holds())
}
