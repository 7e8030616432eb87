package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

// 0.4 V and then 1.5 V: one shows the danger of a leaking cell, and neither is a fact yet.
func TestReadingsInDisputeAreToldAsSuchAndNotAsWhatIsWrong(t *testing.T) {
	lib := fullLamp(t)
	for _, last := range []string{"0.4", "0.95"} {
		first := map[string]string{"0.4": "1.5", "0.95": "0.3"}[last]
		d := build(t, lib, log(intake(lib), volts(t, "cell_lit", first), volts(t, "cell_lit", last)))
		owner := atOnce(written(t, OwnerText, d))
		require.Contains(t, owner, "Readings that do not agree yet are taken again: cell while lit.")
		require.NotContains(t, owner, "we measured")
		require.NotContains(t, owner, "DANGER")
		require.NotContains(t, owner, "Not everything is as it should be")
		require.NotContains(t, Message(d), "volt")
		require.Contains(t, Message(d), "taken again")
		require.NotContains(t, d.Phone[0], "volt")

		bench := atOnce(written(t, Text, d))
		require.Contains(t, bench, last)
		require.Contains(t, bench, "before that "+first+" V", "all of them are shown")
		require.NotContains(t, bench, "most likely")
		require.Contains(t, bench, "not sure yet: its readings are in dispute")
		require.Empty(t, d.Readings[0].Taken[0].Band)
	}
}

// Two that agree settle it: then it is a fact again, and the danger is told.
func TestADisputeThatIsSettledIsToldInFull(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(intake(lib), volts(t, "cell_lit", "1.5"), volts(t, "cell_lit", "0.4"), volts(t, "cell_lit", "0.4")))
	owner := atOnce(written(t, OwnerText, d))
	require.Contains(t, owner, "DANGER")
	require.NotContains(t, owner, "do not agree")
	require.Empty(t, d.Readings[0].Taken[0].Others)
}

// What is close to a limit is undecided: it is not "not as it should be".
func TestWhatIsCloseToALimitIsNotAmiss(t *testing.T) {
	d := Document{Readings: []Reading{
		{Title: "Back feed", Taken: []Taken{{plain: plainly{value: "0 volts", judged: plainClose}}}},
		{Title: "Cell", Taken: []Taken{{plain: plainly{value: "1 volt", judged: plainLow}}}},
	}}
	require.Len(t, d.amiss(), 1)
	require.Equal(t, plainLow, d.amiss()[0].judged)
	require.False(t, walk.Result{}.InDispute())
}
