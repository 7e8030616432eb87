package prove

import (
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/diag/walk"
	"benchlead/trees/treetest"
)

// Healthy machines of each system that are held against the published limits.
const limitMachines = 300

// failing are the published limits that some healthy machine fails, by test: the
// band in which it is then found, and the share of healthy machines there, as the
// circuit has them at 20 degC. What stands behind a basis: trees/sources*.yaml.
var failing = map[string]struct{ band, basis, why string }{
	"battery_load":     {"under", "LA-LOAD-70", "a load heavier than half the cold-cranking amps"},
	"bond_drop":        {"fair", "VD-CONN1", "0.1 V are 1.1 milliohms at 89 A; a sound joint has up to 2.5"},
	"drops_sum":        {"over the manual", "VD-INS", "0.7 V are 8 milliohms at 89 A for both cables, contacts and joints"},
	"frame_drop":       {"fair", "VD-GND", "0.2 V are 2.2 milliohms at 89 A; a sound cable has up to 4"},
	"ground_drop":      {"fair", "VD-GND", "cable and joint together lose 0.30 V at 89 A"},
	"pos_drop":         {"fair", "VD-CBL-L", "0.2 V are 2.2 milliohms at 89 A; a sound cable has up to 4"},
	"positive_total":   {"fair", "VD-INS", "0.5 V are 5.6 milliohms at 89 A for cable, contacts and starter cable"},
	"sol_in_held":      {"sags", "CV-96", "9.6 V are asked of the posts; cable and ground side lose half a volt more"},
	"stcable_drop":     {"fair", "VD-CBL-L", "0.2 V are 2.2 milliohms at 89 A; a sound cable has up to 2.5"},
	"trigger_block":    {"part", "SOL-24MIN", "9 V are asked of the coil; the ground side is between"},
	"charger_dc":       {"part", "WF-HALF", "one with a half-wave shows 0.45 of its ac volts, and one that waits for a pack shows less"},
	"relay_coil_volts": {"full", "LD-RELAY", "a machine without a relay reads nothing there"},
	"coil_tab":         {"over", "IG-STOP-LEAD", "an electronic module shows kilohms or over range, and sparks"},
	"main_insulation":  {"damp", "GEN-MEG", "a sound winding out of a cold shed"},
	"b_to_out":         {"blocks", "CH-DIODE", "a regulator with a controlled upper half blocks until it is fired"},
	"a_to_out":         {"blocks", "CH-DIODE", "a regulator with a controlled upper half blocks until it is fired"},
	"relay_feed_volts": {"full", "LD-PULL", "a machine without a relay reads nothing there"},
	"sealed_rest":      {"fresh", "LA-OCV-SURF", "one that was on its charger today"},
	"wall_dc":          {"volts", "WF-HALF", "one with four diodes shows more than half of its ac volts, one with a single diode less"},
	"wall_load":        {"half", "WF-HALF", "both kinds are sound"},
	"pull_volts":       {"fair", "DS-PULL-9", "the posts sag while a small battery cranks, and wires lose half a volt more"},
	"trigger_held":     {"weak", "SOL-24MIN", "a solenoid on the starter draws tens of amps through the small wires"},
	"charger_form":     {"half-wave", "WF-FULL", "both kinds are sound"},
	"charger_load":     {"half", "WF-HALF", "both kinds are sound"},
}

// A limit of a publication that a healthy machine fails only says: look here. It
// must not condemn by itself, nor together with other limits of this list: it
// takes milliohms, the complaint or another reading. The list must be complete.
func TestPublishedLimitsThatFailTheHealthyMachine(t *testing.T) {
	lib := load(t, treetest.Read(t, root, "trees"))
	got := map[string]bool{}
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		for _, f := range failed(t, lib.Systems[id]) {
			got[f.test] = true
			known, listed := failing[f.test]
			assert.True(t, listed, "%s: %d of %d healthy machines are %q by %s; list it, and let it condemn nothing by itself", f.test, f.beyond, f.of, f.band, f.basis)
			require.Equal(t, known.basis, f.basis, f.test)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(lib.Trees)) {
		for _, s := range lib.Trees[id].Steps {
			if s.Kind == tree.Find {
				require.True(t, enough(s), "%s of %s finds %s by limits alone that a healthy machine fails", s.ID, id, s.Fault)
			}
		}
	}
	for test := range failing {
		require.True(t, got[test], "no healthy machine fails the limit of %s any more", test)
	}
}

// enough says whether a finding has evidence that no healthy machine gives.
func enough(s *tree.Step) bool {
	return slices.ContainsFunc(s.By, func(e tree.Evidence) bool {
		f, listed := failing[e.Test]
		return !listed || !slices.Contains(e.Bands, f.band)
	})
}

// failure is a published limit that healthy machines fail.
type failure struct {
	test, band, basis string
	beyond, of        int
}

// failed are the published limits of a system with healthy machines on both
// sides, and those of "good" bands with healthy machines beyond.
func failed(t *testing.T, sys *tree.System) []failure {
	t.Helper()
	values, _ := walk.Values(sys, job.Intake{Celsius: 20})
	healthy := readHealthy(t, sys)
	var out []failure
	for _, test := range sys.Tests {
		for i, band := range test.Bands[:max(0, len(test.Bands)-1)] {
			if band.Basis == "practice" || band.Basis == "memory" {
				continue
			}
			cut, err := band.Cut(values)
			require.NoError(t, err)
			under, all := 0, len(healthy[test.ID])
			for _, v := range healthy[test.ID] {
				if v < cut {
					under++
				}
			}
			few := all / 100
			if under > few && under < all-few || band.Name == "good" && under < all-few {
				out = append(out, failure{test.ID, test.Bands[i+1].Name, band.Basis, all - under, all})
			}
		}
	}
	return out
}

// readHealthy is what healthy machines at the label's defaults show, by test.
func readHealthy(t *testing.T, sys *tree.System) map[string][]float64 {
	t.Helper()
	maker, err := virtual.NewMaker(sys, virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	base, _ := walk.Values(sys, job.Intake{Celsius: 20})
	out := map[string][]float64{}
	for number := range limitMachines {
		m, err := maker.Build(virtual.Draw{Seed: 1, Number: number})
		require.NoError(t, err)
		values := base
		values.Numbers = maps.Clone(base.Numbers)
		for _, test := range sys.Tests {
			if a, err := m.Answer(test); test.Kind == tree.Metered && err == nil && !a.Flicker {
				values.Numbers[test.ID] = a.Value
			}
		}
		for _, test := range sys.Tests {
			if v, err := test.FromValue(values); test.Kind == tree.Worked && err == nil {
				values.Numbers[test.ID] = v
			}
		}
		for _, test := range sys.Tests {
			if v, ok := values.Numbers[test.ID]; ok && !math.IsNaN(v) {
				out[test.ID] = append(out[test.ID], v)
			}
		}
	}
	return out
}
