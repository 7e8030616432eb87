package ui_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/repair"
)

// A dead motor: a new one comes to 97.85 in five days (61.25, 40 minutes at 48.00 an
// hour, 7.5 % of 61.25), the hand crank to 609.50 in three.
func TestAnotherAimRanksAnotherWayFirst(t *testing.T) {
	s := deadMotor(t, bench(t))
	first := func() string { return s.Offer().Paths[0].Repairs[0].ID }
	require.Equal(t, "new-motor", first())
	require.Contains(t, strings.Join(s.PathLines(), "\n"), "The first is cheapest now")
	before := len(s.Events())
	said := enter(t, s, "aim quickest")
	require.Equal(t, []string{"Ranked by: quickest."}, said)
	require.Equal(t, "hand-crank", first())
	require.Contains(t, strings.Join(s.PathLines(), "\n"), "The first is quickest")
	enter(t, s, "aim 1")
	require.Equal(t, "new-motor", first())
	for _, want := range append(repair.Aims()[1:], repair.Aims()[0]) {
		require.Equal(t, []string{"Ranked by: " + string(want) + "."}, enter(t, s, "aim"))
	}
	require.Len(t, s.Events(), before, "nothing is recorded by it")
	for _, line := range []string{"aim 5", "aim 0", "aim dearest"} {
		_, err := s.Enter(context.Background(), line)
		require.ErrorContains(t, err, "1 cheapest now, 2 cheapest over the seasons, 3 quickest, 4 best margin", line)
	}
	enter(t, s, "aim 3", "choose 1")
	require.Equal(t, []string{"hand-crank"}, s.Facts().Chosen.Repairs)
	require.Equal(t, "quickest", s.Facts().Chosen.Aim)
}
