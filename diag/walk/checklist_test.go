package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// whole is a repair with a line of every kind.
func whole(lib *tree.Library) *tree.Repair {
	lib.Cautions["hot"] = &tree.Caution{ID: "hot", Title: "Hot parts"}
	lib.Repairs["whole"] = &tree.Repair{
		ID: "whole", Systems: []string{"spray-pump"}, Cautions: []string{"gas", "hot", "gas"},
		Steps: []string{"Key out.", "Take it off.", "Fit it.", "Take it off."}, First: 1, Off: []string{"The old one"}, Kept: []string{"The clamp"},
		Bin: []string{"mot", "none such"}, Scrap: []string{"The gasket, to the bin"},
		Fasteners: []tree.Fastener{{What: "The bolts"}, {What: "The pin", New: true}},
		Torque:    []tree.Torque{{What: "Bolts", Low: 9.5, High: 11, Source: "A sheet"}, {What: "Nut", Low: 40, High: 40, Source: "A sheet"}},
	}
	return lib.Repairs["whole"]
}

func TestAChecklistHasEveryLineOfTheRepairOnce(t *testing.T) {
	lib := library(t, "pump")
	agreed := []job.Agreed{{Repair: "whole", Term: "A rule", Way: "It is guarded."}, {Repair: "whole", Term: "Before"}, {Repair: "another", Term: "A rule", Way: "No."}}
	var texts []string
	needed := 0
	for _, l := range Checklist(lib, whole(lib), agreed) {
		texts = append(texts, l.Text)
		if l.Needed() {
			needed++
		}
	}
	require.Equal(t, []string{
		"Understood: Battery gas; Hot parts",
		"Key out.",
		"Comes off: The old one", "Kept: The clamp", "Used again: The bolts",
		"Take it off.", "Fit it.",
		"A rule: It is guarded.",
		"How tight: Bolts, 9.5 to 11 Nm (A sheet)", "How tight: Nut, 40 Nm (A sheet)",
		"New: The pin",
		"To the parts bin, once tested: Motor",
		"Thrown away: The gasket, to the bin",
	}, texts)
	require.Equal(t, 5, needed)
}

// Lines are ticked one by one and in any order; undo opens one again. A line that
// the trees no longer have changes nothing.
func TestLinesAreTickedByTheLog(t *testing.T) {
	l := openSwitch(t)
	whole(l.lib)
	l.choose("", "whole")
	require.Equal(t, AtSafe, func() Stage {
		l.lib.Repairs["whole"].Needs = map[string]string{"fuel": "on"}
		return l.where().Stage
	}(), "made safe first")
	require.NotEmpty(t, l.where().Lines)
	l.safe("fuel", "on")
	lined := func(text string) {
		l.add(job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: "whole", Line: text}})
	}
	lined("Fit it.")
	lined("Hit it.")
	lined("Kept: The clamp")
	done := func() (out []string) {
		for _, line := range l.where().Lines {
			if line.Done {
				out = append(out, line.Text)
			}
		}
		return out
	}
	require.Equal(t, []string{"Kept: The clamp", "Fit it."}, done())
	l.undo(int64(len(l.events)))
	require.Equal(t, []string{"Fit it."}, done())
	l.choose("", "whole")
	require.Empty(t, done(), "a path chosen anew begins anew")
}

// Every repair of the shipped trees has a checklist with steps on it, and no line
// twice: the log knows a line by its text.
func TestShippedChecklists(t *testing.T) {
	lib := shipped(t)
	for id, r := range lib.Repairs {
		had, steps := map[string]bool{}, 0
		for _, l := range Checklist(lib, r, nil) {
			require.False(t, had[l.Text], "%s: %s", id, l.Text)
			had[l.Text] = true
			if l.Kind == LineStep {
				steps++
			}
		}
		require.Positive(t, steps, id)
	}
}
