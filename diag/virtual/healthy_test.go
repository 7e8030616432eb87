package virtual

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The system's own file calls 12 V while cranking healthy, which no battery of
// 250 cold-cranking amps gives; the other tests say what the machine does.
func TestHealthyIsHeldAgainstMachines(t *testing.T) {
	issues := CheckHealthy(library(t))
	require.Len(t, issues, 1)
	i := issues[0]
	require.Equal(t, CodeHealthy, i.Code)
	require.Contains(t, i.Message, `"posts" calls 12 V to 12.8 V healthy`)
	require.Contains(t, i.Message, "100 % of machines")
	require.Contains(t, i.Message, "at 20 degC")
	require.Equal(t, "testdata/start.yaml", i.Place.File)
	require.NotEmpty(t, i.Hint)
}
