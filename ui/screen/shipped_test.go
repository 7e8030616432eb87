package screen

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// eachShippedStep shows every step of the shipped trees in a window.
// toTree are the answers of the intake that lead to a system and its first
// complaint.
func toTree(s *tree.System) []string {
	first := s.Complaints[0]
	out := []string{first.Trouble, s.ID}
	if slices.ContainsFunc(s.Complaints[1:], func(c tree.Complaint) bool { return c.Trouble == first.Trouble }) {
		out = append(out, first.ID)
	}
	return out
}

func eachShippedStep(t *testing.T, width, height int, look func(d driver, name string)) {
	if raced {
		t.Skip("every step of every system takes the race detector minutes; nothing runs beside here")
	}
	b := bench(t, shipped)
	var ids []string
	for id := range b.Library.Systems {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		d := drive(t, b)
		d.size(width, height)
		d.begin(append(toTree(b.Library.Systems[id]), "Machine")...)
		for _, test := range b.Library.Systems[id].Tests {
			if test.Kind == tree.Worked {
				continue
			}
			d.line("take " + test.ID)
			for range 5 {
				if d.step.prompt.Stage == walk.AtSafe {
					d.readOn()
					d.line("yes")
				}
			}
			require.True(t, isAsked(d.step.prompt.Stage), test.ID)
			d.said, d.wrong = nil, ""
			look(d, id+" "+test.ID)
		}
	}
}

// TestShippedStepsAreSeenWhole: in a window of 80 by 24 every step of the
// shipped trees shows what to do, where the leads go, the meter, the machine,
// what is healthy and every choice without scrolling.
func TestShippedStepsAreSeenWhole(t *testing.T) {
	eachShippedStep(t, 80, 24, func(d driver, name string) {
		if page := d.View(); strings.Contains(page, "-- more") {
			t.Errorf("%s doesn't fit:\n%s", name, page)
		}
	})
}

// TestMeterAndHealthyAreSeenInASmallWindow: in 60 by 20, with two lines said
// about the answer before, the leads, the meter and what is healthy stand there
// without scrolling.
func TestMeterAndHealthyAreSeenInASmallWindow(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	eachShippedStep(t, 60, 20, func(d driver, name string) {
		d.said = []string{"Something about the answer before this one, which takes two lines to say."}
		page, p := d.View(), d.step.prompt
		for word, text := range map[string]string{"[R] red": p.Red, "[B] black": p.Black, "    meter": p.Meter, "    healthy": p.Healthy} {
			if text != "" && !strings.Contains(page, "\n"+word) {
				t.Errorf("%s: no %s:\n%s", name, word, page)
			}
		}
	})
}

// TestTheMachineIsNeverLeftOut: whatever else gives way, in what state the machine is
// for a reading stands there, also with something said above it.
func TestTheMachineIsNeverLeftOut(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	for _, size := range [][2]int{{80, 24}, {60, 20}} {
		eachShippedStep(t, size[0], size[1], func(d driver, name string) {
			d.said = []string{"Something about the answer before this one, which takes two lines to say where there is little room."}
			if page := d.View(); d.step.prompt.Machine != "" && !strings.Contains(page, " machine  ") {
				t.Errorf("%s, %d by %d: no machine:\n%s", name, size[0], size[1], page)
			}
		})
	}
}
