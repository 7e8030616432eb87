package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

func TestLately(t *testing.T) {
	sys := &tree.System{ID: "key", Faults: []*tree.Fault{
		{ID: "cable", Title: "The ground cable is bad"}, {ID: "bat", Title: "Battery weak"}, {ID: "sol", Title: "12 V coil open."},
	}}
	cable, bat, both, none := []string{"cable"}, []string{"bat"}, []string{"bat", "cable"}, []string(nil)
	for _, c := range []struct {
		name string
		jobs [][]string
		says string
	}{
		{"none", nil, ""},
		{"too few", [][]string{cable, cable}, ""},
		{"three", [][]string{cable, cable, cable}, "Of your last three of these, three were: the ground cable is bad."},
		{"some", [][]string{cable, bat, cable, none}, "Of your last four of these, two were: the ground cable is bad."},
		{"only the last six", [][]string{cable, cable, cable, cable, bat, none, bat, bat, bat}, "Of your last six of these, four were: the ground cable is bad."},
		{"two of them", [][]string{both, cable, both, cable, none}, "Of your last five of these, four were: the ground cable is bad; two were: battery weak."},
		{"as often", [][]string{both, both, none}, "Of your last three of these, two were: battery weak; two were: the ground cable is bad."},
		{"never the same", [][]string{cable, bat, none}, "Of your last three of these, no two had the same fault."},
		{"a title that is no sentence", [][]string{{"sol"}, {"sol"}, {"gone"}, {"gone"}}, "Of your last four of these, two were: gone; two were: 12 V coil open."},
	} {
		t.Run(c.name, func(t *testing.T) {
			shop := Shop{Last: map[string][][]string{"slow": c.jobs, "dead": {cable, cable, cable}}}
			require.Equal(t, c.says, Lately(sys, "slow", shop))
		})
	}
	require.Empty(t, Lately(nil, "slow", Shop{Last: map[string][][]string{"slow": {cable, cable, cable}}}))
}
