package virtual

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A motor that turns in a state of which that isn't said is told, where the state stands.
func TestWhatTurnsIsSaidToMove(t *testing.T) {
	lib := library(t)
	require.Empty(t, CheckStill(lib))
	sys := lib.Systems["start"]
	sys.State("start").Moving = false
	issues := CheckStill(lib)
	require.Len(t, issues, 1)
	require.Equal(t, `testdata/start.yaml:33:13: in the state "start" the part "motor" of the circuit turns on a machine without a fault, and the state isn't said to be moving [turns-unsaid]`, issues[0].String())
	require.Contains(t, issues[0].Hint, "moving: true")
}

// A setup may let it turn where the state alone does not.
func TestWhatTurnsByASetupIsSaidToMove(t *testing.T) {
	lib := library(t)
	sys := lib.Systems["start"]
	sys.Circuit.Setups["wire-off"] = map[string]string{"key": "start", "negative": "on"}
	issues := CheckStill(lib)
	require.Len(t, issues, 1)
	require.Contains(t, issues[0].String(), `testdata/start.yaml:54:12: for the test "coil_ohms", in the state "battery-off" with wire-off, the part "motor"`)
}
