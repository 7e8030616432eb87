package tree

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
)

// A hand that starts and stops a watch takes some 0.3 s at it: under half a second nothing
// was timed, and such a figure is asked about.
func TestNoHandTimesHalfASecond(t *testing.T) {
	_, lib, _ := shippedOutlined(t)
	timed := 0
	for _, s := range lib.Systems {
		for _, x := range s.Tests {
			if x.Function != measure.Seconds {
				continue
			}
			timed++
			require.NotNil(t, x.Possible, "%s %s", s.ID, x.ID)
			low, _, err := x.Possible.Limits(s.LabelValues(nil, nil, 20))
			require.NoError(t, err)
			require.GreaterOrEqual(t, low, 0.5, "%s %s", s.ID, x.ID)
		}
	}
	require.Positive(t, timed)
}
