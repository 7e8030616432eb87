package counsel

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// By the odds alone a battery at rest leaves the switch at 0.317 and the motor at 0.158.
// The trees say here that it clears one of them.
func TestWhatReadingsClearIsNotListedAmongTheSuspects(t *testing.T) {
	clearing := func(fault string) Counsel {
		return pump(t, "{band: full, says", "{band: full, clears: ["+fault+"], says").job().read("rest", "12.7").counsel()
	}
	listed := func(c Counsel, fault string) bool {
		return slices.ContainsFunc(c.Suspects, func(s Suspect) bool { return s.Has(fault) })
	}

	c := clearing("mot.open")
	require.False(t, listed(c, "mot.open"))
	require.False(t, slices.ContainsFunc(c.Faults, func(f Fault) bool { return f.ID == "mot.open" }))
	require.Greater(t, c.Others, motors-0.01, "its odds go to the others")
	require.NotContains(t, c.notYet(), "Motor")

	require.True(t, listed(clearing("sw.open"), "sw.open"), "odds that contradict a reading are shown")
}
