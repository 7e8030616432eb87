package report

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/counsel"
)

// weighedLamp is a dark lamp whose cell reads dead, while the suspects say otherwise.
func weighedLamp(t *testing.T) Document {
	t.Helper()
	lib := lamp(t)
	sys := lib.Systems["lamp"]
	d := build(t, lib, log(intake(lib), volts(t, "cell_lit", "0.31"), seen("ends", "clean")))
	require.Equal(t, "cell.dead", d.Findings[0].Fault)
	d.Weighed(counsel.Counsel{
		Doubts: []counsel.Doubt{{Fault: sys.Fault("cell.dead"), P: 0.02, Repeat: sys.Test("cell_lit")}},
		Again:  []counsel.Again{{Test: sys.Test("cell_lit"), Says: "It fits nothing that is likely. Take it again."}},
		NotYet: []counsel.NotYet{{Fault: sys.Fault("switch.open"), Part: "Switch", P: 0.3, Take: sys.Test("bulb_lit")}},
	})
	return d
}

func TestADoubtStandsBehindItsFindingEverywhere(t *testing.T) {
	d := weighedLamp(t)
	oneLine := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	text, page := oneLine(written(t, Text, d)), written(t, HTML, d)
	for _, want := range []string{
		"FOUND - The cell is dead. It gives no current. by Cell while lit: 0.310 ± 0.007 V, dead In doubt, unlikely: the other readings speak against it. Take again: Cell while lit.",
		"FITS NOTHING ELSE - Cell while lit. It fits nothing that is likely. Take it again.",
		"DON'T BUY YET - Switch, for: the switch is open (possible); first take: Bulb while lit",
		"nothing is certain yet. We still doubt this and measure again: the cell is dead. - We have to measure more",
	} {
		require.Contains(t, text, want)
	}
	for _, want := range []string{
		"<strong>In doubt, unlikely: the other readings speak against it. Take again: Cell while lit.</strong>",
		"<h2>Don&rsquo;t buy yet</h2>\n<ul><li>Switch, for: the switch is open (possible); first take: Bulb while lit</li>",
		"<h2>Fits nothing else</h2>",
	} {
		require.Contains(t, page, want)
	}
	require.Contains(t, written(t, JSON, d), `"not_yet": [`)
	noNilSlice(t, reflect.ValueOf(d), "document")
}

// A job that nobody weighed says nothing of suspects.
func TestWithoutSuspectsAReportSaysNothingOfThem(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, repairedLamp(t, lib))
	d.Weighed(counsel.Counsel{})
	require.Empty(t, d.Doubts)
	text := written(t, Text, d)
	for _, not := range []string{"doubt", "DON'T BUY", "FITS NOTHING"} {
		require.NotContains(t, text, not)
	}
}
