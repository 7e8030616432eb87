package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui"
)

// The shop's first meter is offered first, and taken when nothing is said; meters that
// the trees don't know are passed over.
func TestTheShopsMeterIsTheUsualOne(t *testing.T) {
	lib := shippedLibrary(t)
	meterOf := func(owned ...string) (question ui.Question, taken string) {
		in := ui.NewIntake(lib, owned...)
		for _, a := range []string{"fuse", "1"} {
			require.NoError(t, in.Answer(a))
		}
		for {
			q, ok := in.Question()
			require.True(t, ok, "it never asked for the meter")
			if q.Title == "Which meter" {
				require.NoError(t, in.Answer(""))
				return q, in.Result().Meter.ID
			}
			answer := ""
			if q.Default == "" {
				answer = "1"
			}
			require.NoError(t, in.Answer(answer), q.Title)
		}
	}
	q, taken := meterOf()
	require.Equal(t, lib.MeterIDs()[0], taken)
	all := len(q.Choices)
	q, taken = meterOf("bench", "no-such-meter")
	require.Equal(t, "bench", taken)
	require.Equal(t, lib.Meters["bench"].Title, q.Default)
	require.Equal(t, "1 "+lib.Meters["bench"].Title, q.Choices[0])
	require.Len(t, q.Choices, all)
}
