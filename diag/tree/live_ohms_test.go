package tree

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// An own current in a state with power is refused, whoever brings the state and
// whoever the test.
func TestNoOhmsUnderPower(t *testing.T) {
	shared := "shared: joints\nstates:\n  - {state: lit, title: Lit, tell: Turn the key on., powered: true, needs: {spark-lead: \"off\"}}\n" +
		"tests:\n  - {test: joint, title: The joint, measure: FUNCTION, leads: {red: batt.pos, black: batt.neg}, state: STATE, bands: [{band: all}]}\n"
	for _, c := range []struct {
		function, state string
		refused         bool
	}{
		{"ohms", "lit", true},
		{"continuity", "lit", true},
		{"diode test", "key-held", true},
		{"dc volts", "lit", false},
		{"ohms", `"off"`, false},
	} {
		texts := minimalTexts(t)
		texts["systems/rig.yaml"] = strings.Replace(texts["systems/rig.yaml"], "include: [ignition]", "include: [ignition, joints]", 1)
		texts["shared/joints.yaml"] = strings.NewReplacer("FUNCTION", c.function, "STATE", c.state).Replace(shared)
		if said := told(texts); c.refused {
			require.Contains(t, said, "shared/joints.yaml:5:46: "+c.function+" must never be read while current can flow")
			require.Contains(t, said, "hint: ask it in a state that is neither powered nor moving")
		} else {
			require.NotContains(t, said, "must never be read")
		}
	}
}
