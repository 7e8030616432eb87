package virtual

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Machines that are made in the memory of those before show what they show when each
// has its own. Work and mending in between leave nothing behind either.
func TestDoneLeavesNothingBehind(t *testing.T) {
	if raced {
		t.Skip("the race detector takes a minute for it; nothing runs beside here")
	}
	for _, system := range []string{"key-start-12v", "button-start-pack"} {
		fresh, meter := shipped(t, system)
		again, _ := shipped(t, system)
		work := fresh.circuit.Work[0].Work
		for i, fault := range fresh.circuit.Faults {
			d := Draw{Seed: 5, Number: i, Faults: []string{fault.Fault}}
			one, other := build(t, fresh, d), build(t, again, d)
			for round := range 3 {
				for _, test := range fresh.sys.Tests {
					want, wantErr := one.Shows(test, Bench{Meter: meter, Noise: true})
					got, err := other.Shows(test, Bench{Meter: meter, Noise: true})
					require.Equal(t, want, got, "%s: %s", fault.Fault, test.ID)
					require.Equal(t, wantErr, err)
				}
				for _, m := range []*Machine{one, other} {
					if round == 0 {
						require.NoError(t, m.Do(work))
					} else {
						require.NoError(t, m.Mend(fault.Fault))
					}
				}
			}
			other.Done()
		}
		require.Less(t, len(again.rows), 200, "memory is used again")
	}
}
