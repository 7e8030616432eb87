package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatFailsHotIsCaughtByThePlan(t *testing.T) {
	b := pump(t)
	require.Empty(t, b.job().counsel().Plan)
	require.Empty(t, b.job("stored").counsel().Plan)
	plan := b.job("hot").counsel().Plan
	require.Len(t, plan, 5)
	require.Contains(t, plan[0], "Clip both leads on")
	require.Equal(t, plan, b.job("stored", "hot").read("held", "5.5").counsel().Plan, "whatever was read")
}

// It turns: nothing is wrong now. A weak battery is nothing of the kind.
func TestWhatIsGoneAfterAReadingIsCaughtByThePlan(t *testing.T) {
	b := pump(t)
	gone := b.job().read("motor", "12").seen("turns", "turns").counsel()
	require.Equal(t, "gone while testing", gone.names()[0])
	require.Len(t, gone.Plan, 5)
	require.Empty(t, b.job().read("held", "5.5").counsel().Plan)
	require.Empty(t, b.job().read("rest", "12.7").counsel().Plan, "0.05 is not likely enough")
}

// It stops now and then, says the owner: 0.3 is gone before anybody looks, and that alone
// is no plan. A charger that is well makes the rest likelier: 0.3 of 1 - 0.7 x 2/9 = 0.355.
func TestWhatComesAndGoesIsFirstLookedFor(t *testing.T) {
	b := pumpThat(t, "stops now and then")
	require.Empty(t, b.job().counsel().Plan)
	c := b.job().read("charger", "13.9").counsel()
	require.InDelta(t, 0.3/(1-0.7*2/9), c.Suspects[0].P, 0.01)
	require.Len(t, c.Plan, 5)
}
