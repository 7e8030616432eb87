package ui_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/trees/treetest"
	"benchlead/ui"
)

// shipped are the trees as they ship.
func shipped(t *testing.T) *tree.Library {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, "..", "trees"))
	require.Empty(t, issues)
	return lib
}

// The name of a test may be typed with its parts apart, as it is heard: to take it, and
// before a reading. What is a choice of some test stays an answer.
func TestANameMayBeTypedWithItsPartsApart(t *testing.T) {
	lib := shipped(t)
	sys := lib.Systems["key-start-12v"]
	for typed, want := range map[string][]ui.Action{
		"battery rest 12.62":                            {{Test: "battery_rest", Text: "12.62"}},
		"battery_rest 12.62":                            {{Test: "battery_rest", Text: "12.62"}},
		"battery rest 12.62; ground drop 0.4 V":         {{Test: "battery_rest", Text: "12.62"}, {Test: "ground_drop", Text: "0.4 V"}},
		"battery rest 12.62 oil right start sound slow": {{Test: "battery_rest", Text: "12.62"}, {Test: "oil", Text: "right"}, {Test: "start_sound", Text: "slow"}},
		"battery rest":                                  {{Text: "battery rest"}},
	} {
		got, err := ui.Parse(sys, typed)
		require.NoError(t, err, typed)
		require.Equal(t, want, got, typed)
	}
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		for _, test := range lib.Systems[id].Tests {
			got, err := ui.Parse(lib.Systems[id], "take "+strings.ReplaceAll(test.ID, "_", " "))
			require.NoError(t, err)
			require.Equal(t, test.ID, got[0].Test)
			for _, c := range test.Choices {
				for _, text := range []string{c.Name, ui.ChoiceTitle(c)} {
					got, err := ui.Parse(lib.Systems[id], text)
					require.NoError(t, err, "%s: %s", test.ID, text)
					require.Len(t, got, 1)
					require.Empty(t, got[0].Test, "%s: %s", test.ID, text)
				}
			}
		}
	}
}

// "take" is content with a word or two when they fit one test; else it names those that fit.
func TestATestIsTakenByAWordOfIt(t *testing.T) {
	sys := shipped(t).Systems["key-start-12v"]
	got, err := ui.Parse(sys, "take dipstick")
	require.ErrorContains(t, err, "dipstick")
	require.Empty(t, got)
	got, err = ui.Parse(sys, "take guards shields")
	require.NoError(t, err)
	require.Equal(t, "guards", got[0].Test)
	_, err = ui.Parse(sys, "take battery")
	require.ErrorContains(t, err, "fits several tests: ")
	require.ErrorContains(t, err, "Look at the battery (take battery_look)")
	require.ErrorContains(t, err, "Battery at rest (take battery_rest)")
	_, err = ui.Parse(sys, "take")
	require.ErrorContains(t, err, "a word or two")
}
