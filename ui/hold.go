package ui

import (
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// HoldWords is a time that something is held or waited for, seconds, in words.
func HoldWords(seconds int) string { return Minutes(float64(seconds) / 60) }

// holds are the times of a test that can be counted down. One that is timed has
// the stop-watch instead.
func holds(p walk.Position) []int {
	if timedTest(p.Test) || p.System == nil {
		return nil
	}
	return p.System.Holds(p.Test)
}

// TimeUp says what to do when one of the times of a step is over, counted from 0.
func (p Prompt) TimeUp(at int) string {
	switch {
	case at+1 < len(p.Hold):
		return "Time is up. Next: " + HoldWords(p.Hold[at+1]) + "."
	case p.Stage == walk.AtWork:
		return "Time is up. Go on with the work."
	case len(p.Choices) > 0:
		return "Time is up. Look now."
	}
	return "Time is up. Read the meter now."
}

// ChoiceOf is the choice that a typed text stands for at a test, by its number in the
// list and its title; 0 when it stands for none, or might for several.
func ChoiceOf(t *tree.Test, text string) (number int, title string) {
	if t == nil || t.Kind != tree.Observed {
		return 0, ""
	}
	name, err := pick(t.Choices, text)
	if err != nil {
		return 0, ""
	}
	for i, c := range t.Choices {
		if c.Name == name {
			return i + 1, ChoiceTitle(c)
		}
	}
	return 0, ""
}
