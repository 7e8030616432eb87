package benchtime

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

func TestTheWayToAPointIsPaidForOnce(t *testing.T) {
	sys := &tree.System{Points: []tree.Point{{ID: "a", Minutes: 2}, {ID: "b", Minutes: 3, Cover: "lid"}, {ID: "c", Minutes: 5, Cover: "lid"}}}
	a := New(sys)
	first, second := &tree.Test{Minutes: 1, Red: "a", Black: "b"}, &tree.Test{Minutes: 1, Red: "c", Black: "a"}
	require.InDelta(t, 1+2+3, a.Minutes(first), 1e-9)
	require.InDelta(t, 1+5+2, a.Minutes(second), 1e-9)
	require.InDelta(t, 6, a.Take(first), 1e-9)
	require.InDelta(t, 1, a.Minutes(second), 1e-9, "the lid is off")

	both := &tree.Test{Minutes: 1, Red: "b", Black: "c"}
	require.InDelta(t, 1+3, New(sys).Minutes(both), 1e-9, "one lid, in the minutes of the first")
	require.InDelta(t, 1, New(sys).Minutes(&tree.Test{Minutes: 1}), 1e-9, "a look has no way")
}
