package prove

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/trees/treetest"
)

// The example of trees/README.md is what whoever writes a tree copies: it holds
// as the shipped trees do.
func TestTheManualsExampleIsProved(t *testing.T) {
	lib := load(t, treetest.Read(t, root, "testdata/trees/plough-lift"))
	r := proved(t, lib, Options{Draws: 100})
	require.True(t, r.Holds(), r.Fails())
	require.Empty(t, r.Bare)
	require.Len(t, r.Trees, 3)
	require.GreaterOrEqual(t, r.Totals.Found, 990, "of 1000 machines with a fault that a tree judges")
	require.Zero(t, r.Totals.Wrong+r.Totals.Missed)
}
