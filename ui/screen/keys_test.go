package screen

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// pages are the bindings of every page.
func pages() map[string][]binding {
	out := map[string][]binding{
		"jobs": jobsKeys(), "intake": intakeKeys(), "view of a job": overKeys(stepAt(walk.AtTest, "", 0)), "help of the jobs": overKeys(nil), "tests": pickKeys(), "prices": pricesKeys(),
	}
	list := stepAt(walk.AtRepair, "", 0)
	list.prompt.List = []ui.Item{{Number: 1, Text: "One.", Mark: ui.MarkOpen, Next: true}}
	out["checklist"] = list.keys()
	held := stepAt(walk.AtTest, tree.Metered, 0)
	held.prompt.Hold = []int{15, 180}
	out["with times"] = held.keys()
	timed := stepAt(walk.AtHandBack, tree.Metered, 0)
	timed.timed = true
	out["timed"] = timed.keys()
	services := stepAt(walk.AtService, "", 0)
	services.prompt.List = []ui.Item{{Number: 1, Text: "One.", Mark: ui.MarkOpen}}
	out["services, open"] = services.keys()
	for _, stage := range []walk.Stage{
		walk.AtIntake, walk.AtDanger, walk.AtSafe, walk.AtTest, walk.AtWork, walk.AtVerdict, walk.AtEstimate, walk.AtTerms, walk.AtRepair, walk.AtCheck, walk.AtService, walk.AtHandBack, walk.AtClose, walk.AtClosed,
	} {
		out[string(stage)] = stepAt(stage, "", 0).keys()
		out[string(stage)+", something seen"] = stepAt(stage, tree.Observed, 3).keys()
		asking := stepAt(stage, tree.Metered, 0)
		asking.asking = true
		out[string(stage)+", a reading"] = asking.keys()
		asking.suspects.shown = true
		out[string(stage)+", with suspects"] = asking.keys()
	}
	return out
}

func TestNoTwoBindingsShareAKey(t *testing.T) {
	for page, list := range pages() {
		had := map[string]string{}
		for _, b := range list {
			for _, k := range b.keys {
				require.Empty(t, had[k], "%s: %s", page, k)
				had[k] = b.says
			}
		}
	}
}

func TestEveryBindingIsInTheHelp(t *testing.T) {
	for page, list := range pages() {
		help := strings.Join(helpKeys(list), "\n")
		for _, b := range list {
			require.Contains(t, help, b.says, page)
			require.NotEmpty(t, b.says, page)
			require.NotEqual(t, action{}, b.act, "%s: %s does nothing", page, b.name())
		}
	}
}

func TestHelpIsAlwaysInTheKeyLine(t *testing.T) {
	for page, list := range pages() {
		has := false
		for _, b := range list {
			has = has || b.keys[0] == "h"
		}
		for width := leastWidth; width < 130; width++ {
			line := keyLine(list, newStyles(nil), width)
			require.LessOrEqual(t, len(line), width)
			if has {
				require.Contains(t, line, "h help", "%s at %d", page, width)
			}
		}
	}
}

// TestEveryKeyOfTheHelpDoesSomething presses each key where its page shows it
// and looks for a change: another page, a text in the input, a new place.
func TestEveryKeyOfTheHelpDoesSomething(t *testing.T) {
	scenes := map[string]func(d driver){
		"jobs":        func(d driver) { d.begin("1", "1", "A"); d.keys("q <enter>") },
		"intake":      func(d driver) { d.keys("n 1 <enter> 1 <enter>") },
		"reading":     func(d driver) { d.begin("1", "1", "A"); d.keys("1 <enter>") },
		"held":        held,
		"asking":      func(d driver) { d.begin("1", "1", "A"); d.keys("1 <enter> 126 <enter>") },
		"work":        func(d driver) { d.begin("1", "1", "A"); d.keys("1 <enter> 11.9 <enter>") },
		"verdict":     verdict,
		"estimate":    func(d driver) { verdict(d); d.keys("1 <enter>") },
		"repair":      func(d driver) { verdict(d); d.keys("1 <enter>"); approve(d) },
		"list":        longRepair,
		"list begun":  func(d driver) { longRepair(d); d.keys("yes <enter>") },
		"list ticked": func(d driver) { longRepair(d); d.keys("yes <enter>"); d.line("all") },
		"services":    services,
		"why":         func(d driver) { d.begin("1", "1", "A"); d.keys("h") },
		"take":        func(d driver) { d.begin("1", "1", "A"); d.keys("t") },
		"prices":      func(d driver) { d.keys("p") },
		"prices full": func(d driver) { d.keys("p <enter>") },
	}
	for name, play := range scenes {
		d := drive(t, bench(t, small))
		play(d)
		for _, b := range d.bindings() {
			if b.act.deed == quit || b.act.deed == scroll {
				continue // TestLeaving and TestScrolling
			}
			for _, k := range b.keys {
				d := drive(t, bench(t, small))
				play(d)
				before := d.View()
				word := k
				if len(k) > 1 {
					word = "<" + k + ">"
				}
				if k == "esc" && d.over == nil && d.intake == nil {
					d.keys("0") // something to be emptied
					before = d.View()
				}
				if k == " " {
					d.press1(k)
				} else {
					d.keys(word)
				}
				require.NotEqual(t, before, d.View(), "%s: %s", name, b.name())
			}
		}
	}
}

func TestScrolling(t *testing.T) {
	d := drive(t, bench(t, small))
	d.size(60, 14)
	d.begin("1", "1", "A")
	d.keys("h")
	first := d.View()
	d.keys("<down>")
	second := d.View()
	require.NotEqual(t, first, second)
	d.keys("<up>")
	require.Equal(t, first, d.View())
	d.keys(strings.Repeat("<pgdown> ", 30))
	require.Contains(t, d.View(), "more above")
	d.keys("<up>")
	require.Contains(t, d.View(), "and below (1)", "the end is no place that must be scrolled back from")
}

// TestAListMovesWithItsTicks: the line that is next is always on the page, in any
// window, until somebody scrolls; the next tick shows it again.
func TestAListMovesWithItsTicks(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 20}, {leastWidth, leastHeight}} {
		d := drive(t, bench(t, small))
		d.size(size[0], size[1])
		longRepair(d)
		d.keys("yes <enter>")
		for d.step.next() != nil {
			require.Contains(t, d.View(), fmt.Sprintf("\n> [ ] %2d  ", d.step.next().Number))
			d.keys("<pgup> <pgup> <pgup> <enter>")
		}
		d.keys("d <enter>")
		require.Equal(t, walk.AtSafe, d.step.prompt.Stage)
		d.line("yes")
		require.Equal(t, walk.AtCheck, d.step.prompt.Stage)
	}
}

// A word that the letter of the tests begins ticks all the same.
func TestTickCanBeTyped(t *testing.T) {
	d := drive(t, bench(t, small))
	longRepair(d)
	d.keys("yes <enter>")
	d.line("tick")
	d.line("tick 3")
	require.Len(t, d.session.Facts().Lined, 3)
	require.False(t, d.step.item("3").Open())
}

// TestALongVerdictScrolls: in the smallest window every way can be reached, and
// the input and the keys stay where they are.
func TestALongVerdictScrolls(t *testing.T) {
	d := drive(t, bench(t, small))
	d.size(leastWidth, leastHeight)
	verdict(d)
	seen := ""
	for i := 0; i == 0 || strings.Contains(d.View(), "below ("); i++ {
		require.Less(t, i, 30)
		page := d.View()
		lines := strings.Split(page, "\n")
		require.Len(t, lines, leastHeight)
		require.True(t, strings.HasPrefix(lines[leastHeight-2], "> _"))
		require.Contains(t, lines[leastHeight-1], "h help")
		seen += page
		d.keys("<pgdown>")
	}
	seen += d.View()
	for n := range d.step.list() {
		require.Contains(t, seen, fmt.Sprintf("\n   %d  ", n+1))
	}
	d.keys("2")
	require.Contains(t, d.View(), "Enter: 2 Fit")
}
