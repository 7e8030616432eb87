package tree

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/trees/treetest"
)

// deadIn are the states of the trees as they ship that check refuses after changes.
func deadIn(t *testing.T, changes ...string) []source.Issue {
	t.Helper()
	_, issues := Load(treetest.Change(t, treetest.Read(t, "../..", "trees"), changes...))
	var out []source.Issue
	for _, i := range issues {
		if i.Code == CodeStateNeeds {
			out = append(out, i)
		}
	}
	return out
}

// The lead that repairs take off has to be put back wherever power is needed; what is
// off under power in some test (spark lead, plugs) may be left out.
func TestAStateWithPowerSaysHowTheLeadStands(t *testing.T) {
	require.Empty(t, deadIn(t))
	refused := deadIn(t, `needs: {battery-negative: "on", drive: neutral-chocked, blade: disengaged, stand: clear, wiring: as-built, added: none}
  - state: running
    title: Engine running at working speed
    tell: Know a second way to stop it - choke, fuel. Start it outdoors. Throttle`,
		`needs: {drive: neutral-chocked, blade: disengaged, stand: clear, wiring: as-built, added: none}
  - state: running
    title: Engine running at working speed
    tell: Know a second way to stop it - choke, fuel. Start it outdoors. Throttle`)
	require.NotEmpty(t, refused)
	for _, i := range refused {
		require.Contains(t, i.Message, `"key-on"`)
		require.Contains(t, i.Message, `battery-negative: "off"`)
		require.Equal(t, "trees/shared/states-key.yaml", i.Place.File)
	}
}
