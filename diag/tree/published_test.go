package tree

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/formula"
)

// What the tests of published figures look up. One file a system holds the figures.

func testOf(t *testing.T, sys *System, id string) *Test {
	t.Helper()
	require.NotNil(t, sys)
	test := sys.Test(id)
	require.NotNil(t, test, "%s has no test %s", sys.ID, id)
	return test
}

func bandOf(t *testing.T, test *Test, name string) Band {
	t.Helper()
	for _, b := range test.Bands {
		if b.Name == name {
			return b
		}
	}
	require.Fail(t, "no such band", "%s of %s", name, test.ID)
	return Band{}
}

// bandHolding is the name of the band in which a value in base units lies.
func bandHolding(t *testing.T, test *Test, value float64, values formula.Values) string {
	t.Helper()
	if math.IsInf(value, 1) {
		return test.Bands[len(test.Bands)-1].Name // over range
	}
	band, ok := bandAt(test, value, sample{values: values})
	require.True(t, ok, "%s has no band for %v", test.ID, value)
	return band.Name
}
