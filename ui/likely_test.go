package ui_test

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/counsel"
	"benchlead/diag/repair"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// All that is suspected goes to the repair paths, whatever is gone with it; a probability
// that adding up left just over 1 is 1.
func TestSuspectsAsRepairPathsWeighThem(t *testing.T) {
	held := &tree.Test{ID: "held", Title: "Volts while held"}
	weak := suspect.Suspect{Hypothesis: suspect.Hypothesis{Faults: []string{"bat.weak", "chg.dead"}}, P: 0.75}
	gone := suspect.Suspect{Hypothesis: suspect.Hypothesis{Gone: true}, P: 0.25}
	sure := weak
	sure.P = 1.0000000000000002
	c := counsel.Counsel{All: []suspect.Suspect{weak, gone}, Foretold: []counsel.Foretelling{
		{Test: held, Minutes: 3, Answers: []counsel.Answer{{Says: "sags", P: 0.75, Suspects: []suspect.Suspect{sure}}}},
		{Test: held, Minutes: 63, After: &tree.Stage{ID: "charged", Title: "After the battery was charged"}},
	}}
	faults := []string{"bat.weak", "chg.dead"}
	require.Equal(t, []repair.Likely{{Faults: faults, Probability: 0.75}, {Gone: true, Probability: 0.25}}, ui.Likely(c))
	require.Equal(t, []repair.Open{
		{Test: "held", Title: "Volts while held", Minutes: 3, Outcomes: []repair.Outcome{
			{Answer: "sags", Probability: 0.75, Suspects: []repair.Likely{{Faults: faults, Probability: 1}}},
		}},
		{Test: "held", Title: "Volts while held, after the battery was charged", Minutes: 63},
	}, ui.Open(c))
}

// What the suspects of a cloud say is taken as it is. A weak battery is 0.475 of all, an
// open switch 0.3167, an open motor 0.1583; a hand crank clears all three, 0.95, and not
// what comes and goes.
func TestRepairPathsTakeWhatSuspectsSay(t *testing.T) {
	b, _ := suspecting(t)
	c := beginPump(t, b).Counsel()
	sys := b.Library.Systems["spray-pump"]
	v := walk.Verdict{Found: []walk.Finding{{Fault: sys.Fault("bat.weak")}}}
	o, err := repair.Paths(b.Library, sys, v, b.Prices, decimal.Zero, repair.Choices{Suspects: ui.Likely(c), Open: ui.Open(c)})
	require.NoError(t, err)
	require.NotEmpty(t, o.Paths)
	for _, p := range o.Paths {
		require.True(t, p.Comeback.Known)
		want := "0.475"
		if p.Converts {
			want = "0.95"
		}
		require.Equal(t, want, p.Comeback.Clears.String(), p.ID)
		require.Equal(t, p.Converts, p.Holds, "one that is gone is 5 of 100, and no more")
	}
}
