package virtual

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

// shipped is the maker of a system that the program comes with, and a meter.
func shipped(t testing.TB, system string) (*Maker, measure.Meter) {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, "../..", "trees"))
	require.NoError(t, issues.Err())
	maker, err := NewMaker(lib.Systems[system], Conditions{Celsius: 20})
	require.NoError(t, err)
	return maker, lib.Instruments("pocket")
}

// TestOrderOfAskingDoesNotMatter asks one machine forwards and another of the same
// number backwards, often with a lead misplaced: leads on parts that nothing joins
// are included. Only the first is asked for its complaint, in other states.
func TestOrderOfAskingDoesNotMatter(t *testing.T) {
	for _, system := range []string{"key-start-12v", "button-start-pack"} {
		maker, meter := shipped(t, system)
		for number := range 3 {
			d := Draw{Seed: 1, Number: number}
			forwards, backwards := build(t, maker, d), build(t, maker, d)
			_, err := forwards.Complaint()
			require.NoError(t, err)
			first, tests := map[string][2]Shown{}, slices.Clone(maker.System().Tests)
			ask := func(m *Machine, test *tree.Test) (s [2]Shown) {
				s[0], _ = m.Shows(test, Bench{Meter: meter})
				s[1], _ = m.Shows(test, Bench{Meter: meter, Noise: true, Slips: 0.3, Take: 1})
				return s
			}
			for _, test := range tests {
				first[test.ID] = ask(forwards, test)
			}
			slices.Reverse(tests)
			for _, test := range tests {
				require.Equal(t, first[test.ID], ask(backwards, test), "%s %d %s", system, number, test.ID)
			}
		}
	}
}
