package ui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// confirmed says yes as long as a card or a danger stands before the step.
func confirmed(t *testing.T, s *ui.Session) {
	t.Helper()
	for range 5 {
		if stage := s.Prompt().Stage; stage != walk.AtSafe && stage != walk.AtDanger {
			return
		}
		enter(t, s, "yes")
	}
}

// Hands go to the wires of a machine that ran a moment ago: the first line of the card has
// it stopped. Once the card is confirmed it is not said again.
func TestWhatRanIsStoppedBeforeTheCard(t *testing.T) {
	s := riderIn(t, atBench(t), "charge-diode", "no-charge")
	enter(t, s, "take back_feed")
	for _, l := range s.Prompt().Tell {
		require.NotContains(t, l, "Engine: ", "nothing ran yet")
	}
	enter(t, s, "take stator_ac")
	confirmed(t, s)
	enter(t, s, "25")
	enter(t, s, "take back_feed")
	p := s.Prompt()
	require.Equal(t, walk.AtSafe, p.Stage)
	require.Contains(t, p.Tell[0], "Engine: Key or switch off")
	confirmed(t, s)
	enter(t, s, "take winding_ohms")
	require.Equal(t, walk.AtSafe, s.Prompt().Stage)
	require.NotContains(t, strings.Join(s.Prompt().Tell, "\n"), "Engine: ")
}

// A danger that was understood is still one: each step with power on says it, until the
// reading that raised it counts no more.
func TestADangerThatStandsIsSaidWithPowerOn(t *testing.T) {
	s := riderIn(t, atBench(t), "charge-diode", "no-charge")
	enter(t, s, "take back_feed")
	confirmed(t, s)
	enter(t, s, "12.5")
	require.Equal(t, walk.AtDanger, s.Prompt().Stage)
	confirmed(t, s)
	wire := s.Library().Cautions["hot-charge-wire"].Title
	said := func() string { return strings.Join(s.Prompt().Caution, "\n") }
	enter(t, s, "take stator_joined")
	require.Equal(t, walk.AtSafe, s.Prompt().Stage)
	require.Contains(t, said(), wire, "before the battery goes on again")
	confirmed(t, s)
	require.Contains(t, said(), wire)
}
