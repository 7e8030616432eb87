package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/ui"
)

// A meter that ranges by itself shows 33 for 33 ohm and for 33 kilohms: nobody is taken
// at a bare number. Nought and over range are the same in both.
func TestABareNumberIsNoKilohms(t *testing.T) {
	winding := &tree.Test{Kind: tree.Metered, Function: measure.Ohms, Unit: "kohm", PerUnit: 1000}
	for text, want := range map[string]float64{"33 ohm": 33, "33 kohm": 33000, "33k": 33000, "0": 0, "0.00": 0} {
		r, err := measure.Parse(text, measure.Ohms)
		require.NoError(t, err, text)
		r, err = ui.InTestUnit(winding, r, text)
		require.NoError(t, err, text)
		require.InDelta(t, want, r.Value, 1e-9, text)
	}
	for _, text := range []string{"33", "0.5", "0,5", " 33 "} {
		r, err := measure.Parse(text, measure.Ohms)
		require.NoError(t, err, text)
		_, err = ui.InTestUnit(winding, r, text)
		require.ErrorContains(t, err, "write the unit behind it", text)
	}
	r, err := measure.Parse("OL", measure.Ohms)
	require.NoError(t, err)
	_, err = ui.InTestUnit(winding, r, "OL")
	require.NoError(t, err)
}
