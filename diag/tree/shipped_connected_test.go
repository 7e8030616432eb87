package tree

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
)

// Volts away from the battery's posts, read with everything off, are nothing where the
// battery's lead is off, and would clear what lets them through. Such a test says how the
// lead is to stand.
func TestVoltsWithEverythingOffAreReadWithTheBatteryOn(t *testing.T) {
	_, lib, _ := shippedOutlined(t)
	const lead = "battery-negative"
	// Read on the part itself, or with a source of its own clipped on.
	own := []string{"charger_open", "wall_dc", "wall_load"}
	seen := 0
	for _, s := range lib.Systems {
		if lib.SafeOf(s)[lead] == nil {
			continue
		}
		for _, x := range s.Tests {
			state := s.State(x.State)
			atPosts := x.Red == "batt.pos" && x.Black == "batt.neg"
			if x.Kind != Metered || x.Function != measure.DCVolts || state.Live() || atPosts || slices.Contains(own, x.ID) {
				continue
			}
			seen++
			assert.NotEmpty(t, s.Needs(x)[lead], "%s %s", s.ID, x.ID)
		}
	}
	require.Positive(t, seen)
}
