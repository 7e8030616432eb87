package suspect

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

// packs is the shipped system with the removable pack, as it stands on the bench.
func packs(t *testing.T) *tree.System {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, root, "trees"))
	require.NoError(t, issues.Err())
	return lib.Systems["button-start-pack"]
}

// A pack that is swollen, or that nobody could look at, is not charged; one that was seen
// to be sound may be. A hot one stops all that needs power, too.
func TestWhatIsSeenBeforeItHoldsTheWorkBack(t *testing.T) {
	sys := packs(t)
	look := Key{"", "pack_look"}
	for _, c := range []struct {
		says          string
		taken         bool
		answers       []Reading
		closed, still bool
	}{
		{"not looked at yet: it is looked at first", false, nil, false, false},
		{"seen to be sound", true, []Reading{{look, Answer{Kind: Seen, Choice: "sound"}}}, false, false},
		{"swollen", true, []Reading{{look, Answer{Kind: Seen, Choice: "swollen or split"}}}, true, false},
		{"hot: the work stops", true, []Reading{{look, Answer{Kind: Seen, Choice: "hot"}}}, true, true},
		{"passed over", true, nil, true, false},
		{"no answer came of it", true, []Reading{{Key: look}}, true, false},
	} {
		at := At{Access: benchtime.New(sys), Taken: map[Key]bool{look: c.taken}}
		at.Heed(sys, c.answers)
		require.Equal(t, c.closed, at.closed["charged"], c.says)
		require.Equal(t, c.closed, at.closed["woken"], c.says)
		require.Equal(t, c.still, at.Still, c.says)
	}
}

// Held back, only what is taken with nothing switched on is offered.
func TestADangerThatStopsHoldsPowerBack(t *testing.T) {
	c := pump(t, "dead")
	free := c.Weigh(nil).Next(At{Access: benchtime.New(c.system)})
	held := c.Weigh(nil).Next(At{Access: benchtime.New(c.system), Still: true})
	risky := 0
	for _, o := range free {
		if o.Risk != Still {
			risky++
		}
	}
	require.Positive(t, risky, "the volts while held need power")
	for _, o := range held {
		require.Equal(t, Still, o.Risk, o.Test.ID)
	}
	require.Len(t, held, len(free)-risky)
}
