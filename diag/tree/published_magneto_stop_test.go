package tree

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The cuts of the magneto and its stop wire, typed from the publications beside them.
func TestMagnetoCutsAreThePublished(t *testing.T) {
	const mild = 20 // degC
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["magneto-stop"]
	require.NotNil(t, sys)
	for _, row := range []struct {
		test, band string
		words      map[string]string // on the label
		below      float64           // base units
		from       string
	}{
		{"ground_side", "as published", nil, 0.2, "service text on stop leads: ground side 0.2 ohm or less"},
		{"coil_tab", "winding", map[string]string{"coil_kind": "winding"}, 1.2, "service text on stop leads: stop terminal of a winding coil about 1.0, bad over 1.2 ohm"},
		{"coil_tab", "winding", map[string]string{"coil_kind": "electronic"}, 1.2, "the same; an electronic coil lies far above it"},
		{"coil_secondary", "usual", nil, 15e3, "a meter maker's note on breaker magnetos: 3 to 15 kilohm, over-range is open"},
		{"stop_time", "too near the limit", map[string]string{"tool": "walked blade"}, 3.0, "16 CFR 1205.5(a)(1)(iii): within 3.0 seconds of release"},
		{"stop_time", "too near the limit", map[string]string{"tool": "ridden blade"}, 5.0, "ANSI/OPEI B71.1, ride-on, from memory"},
		// 3.0 less the 0.3 s that a person with a watch is good to
		{"stop_time", "in time", map[string]string{"tool": "walked blade"}, 2.7, "16 CFR 1205.5(a)(1)(iii) less 0.3 s for the person"},
		{"stop_time", "in time", map[string]string{"tool": "ridden blade"}, 4.7, "ANSI/OPEI B71.1 less 0.3 s for the person"},
	} {
		cut, err := bandOf(t, testOf(t, sys, row.test), row.band).Cut(sys.LabelValues(nil, row.words, mild))
		require.NoError(t, err)
		require.InDelta(t, row.below, cut, 1e-9, "%s, %s, %v: %s", row.test, row.band, row.words, row.from)
	}
}

// What is set by a gauge and not read on a meter stands in the text of the test.
func TestMagnetoGaugesAreThePublished(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["magneto-stop"]
	require.NotNil(t, sys)
	for test, figures := range map[string][]string{
		"spark":     {"0.166 in", "4.2 mm"},                   // TM 5-4240-501-14&P p 289; 0.166 x 25.4 = 4.22
		"air_gap":   {"0.010 to 0.014 in", "0.25 to 0.36 mm"}, // web articles on small-engine coils
		"good_plug": {"0.030 in", "0.76 mm"},                  // common practice on small mowers; 0.030 x 25.4 = 0.762
	} {
		for _, figure := range figures {
			require.True(t, strings.Contains(testOf(t, sys, test).Tell, figure), "%s says %s", test, figure)
		}
	}
}

// No ohms condemn or clear a coil: neither reading of it is evidence in any tree, and
// none of its bands clears a fault.
func TestOhmsOfACoilDecideNothing(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	sys := lib.Systems["magneto-stop"]
	require.NotNil(t, sys)
	for _, id := range []string{"coil_secondary", "coil_tab"} {
		for _, band := range testOf(t, sys, id).Bands {
			require.Empty(t, band.Clears, "%s, %s", id, band.Name)
		}
		for _, tree := range lib.Trees {
			for _, step := range tree.Steps {
				for _, by := range step.By {
					require.NotEqual(t, id, by.Test, "%s/%s", tree.ID, step.ID)
				}
			}
		}
	}
}
