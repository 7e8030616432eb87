package prove

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A pump that gets 12.6 to 12.8 V through 2.11 to 2.13 ohm takes 5.9 to 6.1 A.
// Whoever complains under 6 A complains of many that are whole.
func TestAMachineThatIsComplainedOfWithoutItsFaultIsPutAside(t *testing.T) {
	lib := pump(t, "{complaint: dead, when: windings.amps < 5.8, state: held}", "{complaint: dead, when: windings.amps < 6, state: held}")
	r := proved(t, lib, Options{})
	no := r.Trees[1]
	require.Equal(t, "no-run", no.Tree)
	require.Equal(t, []string{"chg.dead"}, no.Hidden, "a dead charger is not why it is brought")
	require.Len(t, no.Quiet, 1)
	require.Equal(t, "no fault", no.Quiet[0].Fault)
	require.NotZero(t, no.Quiet[0].Counts.Draws, "a healthy machine is walked whatever it comes in with")
	weak := of(t, r, "no-run", "bat.weak")
	require.Equal(t, 30, weak.Counts.Draws)
	require.Greater(t, weak.Tried, 30, "the others were put aside")

	// With usual values moved no machine is as its label says, and none is put aside.
	moved := proved(t, lib, Options{Shift: 0.001})
	require.Empty(t, moved.Trees[1].Hidden)
}
