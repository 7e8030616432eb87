package casefile

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/shape"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// cranking is what the trade calls the state in which the starter is told to turn, and
// with what the titles of that state tell it.
var (
	cranking    = []string{"crank", "cranking", "cranked", "start", "starting", "turning", "turning over"}
	showsTurned = []string{"held in start", "turned to start", "cranked", "button pressed", "held at start"}
)

// state reports a state that the system has not. Likeness of letters leads to a state
// only for a slip of one letter: a reading filed under another state is judged wrongly
// and nobody sees it.
func (l *loader) state(w shape.Word) {
	names := stateNames(l.sys)
	if !w.Given() || slices.Contains(names, w.Text) {
		return
	}
	hint := "one of: " + strings.Join(titled(l.sys.States), ", ")
	said := strings.ToLower(strings.NewReplacer("-", " ", "_", " ").Replace(w.Text))
	if turned := turnedBy(l.sys); slices.Contains(cranking, said) && len(turned) > 0 {
		hint = fmt.Sprintf("for %s write %s", w.Text, strings.Join(titled(turned), ", or "))
	} else if near := source.NearestWithin(1, w.Text, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	l.Report(CodeUnknown, w.Place, fmt.Sprintf("there is no state of this system %q", w.Text), hint)
}

func turnedBy(sys *tree.System) []tree.State {
	var out []tree.State
	for _, s := range sys.States {
		title := strings.ToLower(s.Title)
		if slices.ContainsFunc(showsTurned, func(words string) bool { return strings.Contains(title, words) }) {
			out = append(out, s)
		}
	}
	return out
}

func titled(states []tree.State) []string {
	var out []string
	for _, s := range states {
		out = append(out, fmt.Sprintf("%s (%s)", s.ID, s.Title))
	}
	return out
}
