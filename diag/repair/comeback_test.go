package repair

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

// A path holds when it clears every suspect that is likelier than 5 of 100.
func TestHolds(t *testing.T) {
	holds := func(starter float64, id string) bool {
		s := []Likely{at(packOnly, 0.9), {Faults: []string{"starter.open"}, Probability: starter}}
		return pathOf(t, offersFor(t, edited(t), Choices{Suspects: s}, "pack.no-output"), id).Holds
	}
	require.True(t, holds(0.05, "new-pack: pack=original"))
	require.False(t, holds(0.0501, "new-pack: pack=original"))
	require.True(t, holds(0.0501, "rope-start: rope=aftermarket"))
	gone := []Likely{at(packOnly, 0.9), {Gone: true, Probability: 0.1}}
	require.False(t, pathOf(t, offersFor(t, edited(t), Choices{Suspects: gone}, "pack.no-output"), "rope-start: rope=aftermarket").Holds)
	sound := []Likely{at(packOnly, 0.9), {Probability: 0.1}}
	require.True(t, pathOf(t, offersFor(t, edited(t), Choices{Suspects: sound}, "pack.no-output"), "new-pack: pack=original").Holds)
	require.False(t, pathOf(t, offersFor(t, edited(t), Choices{}, "pack.no-output"), "new-pack: pack=original").Holds, "nobody weighed it")
}

// What is said of a comeback: never nothing while nobody weighed it, never sure when it
// isn't.
func TestComebackIsTold(t *testing.T) {
	says := func(c Choices) string {
		return pathOf(t, offersFor(t, lasting(edited(t)), c, "pack.no-output"), "new-pack: pack=original").Comeback.Says
	}
	require.Equal(t, "what it may cost when it comes back is not known: no suspects were weighed", says(Choices{}))
	// (1 - 0.72) x 8.00 = 2.24.
	require.Equal(t, "72 % likely to clear all that is wrong; 2.24 USD to expect for coming back", says(Choices{Suspects: weighed}))
	require.Contains(t, says(Choices{Suspects: []Likely{at(packOnly, 0.998)}}), "over 99 % likely")
	require.Contains(t, says(Choices{Suspects: []Likely{at(packOnly, 0.004)}}), "under 1 % likely", "what may be is not told as impossible")
	require.Regexp(t, "^0 % likely", says(Choices{Suspects: []Likely{at(packOnly, 0)}}))
	require.Contains(t, says(Choices{Suspects: []Likely{packOnly}}), "100 % likely to clear all that is wrong; 0.00 USD")
}

// A finding that no suspect has is beside what they weigh: it stands.
func TestAFindingBesideTheSuspectsStands(t *testing.T) {
	b := edited(t, "stock: 1}", "stock: 0, returnable: no}")
	p := pathOf(t, offersFor(t, b, Choices{Suspects: weighed}, "lever.bypassed"), "new-switch: switch=original")
	require.Equal(t, "22.50", p.Risk.Stake.StringFixed(2))
	require.True(t, p.Risk.Known)
	require.True(t, p.Risk.Expected.IsZero())
}

// The starter comes off with the conversion; once all its faults are cleared it may lie in
// the bin, when what it needs is shown.
func TestGoodPartsThatComeOffAreSaved(t *testing.T) {
	lib, sys := bench()
	lib.Repairs["rope-start"].Bin = []string{"starter", "cable", "switch", "gone"}
	lib.Parts["starter"].BinNeeds = []string{"Spins when fed"}
	v := verdict(sys, "pack.no-output")
	saved := func() []Saved {
		o, err := Paths(lib, sys, v, edited(t), decimal.Zero, Choices{})
		require.NoError(t, err)
		require.Empty(t, pathOf(t, o, "new-pack: pack=original").Saved)
		return pathOf(t, o, "rope-start: rope=aftermarket").Saved
	}
	require.Empty(t, saved(), "nothing is cleared")
	v.Masked, v.Untested = nil, nil
	for _, id := range []string{"starter.open", "lever.bypassed"} {
		v.Cleared = append(v.Cleared, walk.Clearing{Fault: sys.Fault(id)})
	}
	s := saved()
	require.Len(t, s, 1, "the switch never goes into the bin, and the cable is not cleared")
	require.Equal(t, "starter", s[0].Part.ID)
	require.Equal(t, []string{"Spins when fed"}, s[0].Needs)
	v.Cleared[0].Removed = true
	require.Empty(t, saved(), "that a conversion took it off proves nothing")
}
