package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Held at 1 V the battery is found to be weak, though at the motor stand 12.7 V: one slip,
// and the finding is in doubt. With 3 V at rest too, where every battery rests at 12.7 V, two
// answers fit no machine, whatever is wrong: nobody is suspected, and what was found stands.
func TestWhereNoMachineFitsNobodyIsSuspectedAndTheFindingStands(t *testing.T) {
	l := pump(t).job().read("charger", "13.9").read("held", "1").read("motor", "12.7").seen("turns", "stands")
	c := l.counsel()
	require.Empty(t, c.Unlike)
	require.Len(t, c.Doubts, 1)

	c = l.read("rest", "3").counsel()
	require.Contains(t, c.Unlike, "No simulated machine fits these answers")
	require.Contains(t, c.Unlike, "What the trees have found stands.")
	require.Empty(t, c.Suspects)
	require.Empty(t, c.All)
	require.Empty(t, c.Doubts)
	require.Empty(t, c.NotYet)
	require.Empty(t, c.Tests)
	require.False(t, c.Named)
	require.Len(t, c.Again, 2, "which answers fit nothing is said all the same")
}

// Held 5 V are a weak battery's, and 12.7 V at the motor are nobody's with that: nothing is
// found, and every suspect is ruled out by one of the two.
func TestWhereAllSuspectsAreRuledOutItIsSaid(t *testing.T) {
	c := pump(t).job().read("held", "5").read("motor", "12.7").counsel()
	require.Contains(t, c.NoneFits, "Nothing of the list fits what was read")
	require.NotEmpty(t, c.Suspects, "what fits least badly")
	require.NotEmpty(t, c.Again)

	c = pump(t).job().read("held", "5").counsel()
	require.Empty(t, c.NoneFits)
	require.NotEmpty(t, c.Suspects)
}
