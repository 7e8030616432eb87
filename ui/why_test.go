package ui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// explained is what "?" says where a job stands, as the plain lines say it.
func explained(t *testing.T, s *ui.Session) string {
	t.Helper()
	last := s.Facts().Last
	said := inPlain(t, s, "?")
	require.Equal(t, last, s.Facts().Last, "? records nothing")
	for _, l := range s.View(ui.Why) {
		head, _, _ := strings.Cut(strings.TrimSpace(l), ": ")
		head, _, _ = strings.Cut(head, " (") // units are said in words
		require.Contains(t, said, head, "both faces say the same")
	}
	return said
}

// From the first step to the closed job every page says what it is for and the mistake
// people make there.
func TestEveryPageIsExplained(t *testing.T) {
	s := beginPump(t, bench(t))
	been := map[walk.Stage]bool{}
	at := func(want walk.Stage, parts ...string) {
		t.Helper()
		stage := s.Prompt().Stage
		require.Equal(t, want, stage)
		been[stage] = true
		said := explained(t, s)
		for _, part := range parts {
			require.Contains(t, said, part)
		}
		require.NotContains(t, said, "nothing more to say")
	}
	at(walk.AtTest, "low: below 12.4 V")
	enter(t, s, "12.8")
	at(walk.AtSafe, "What it is for: ", "The usual mistake: Confirming from memory", "The machine in the next step: ")
	enter(t, s, "yes", "charger 13.5", "held 9.0")
	enter(t, s, "choose 1")
	at(walk.AtEstimate, "a ceiling for the whole job", "The usual mistake: ")
	enter(t, s, "pass ours")
	at(walk.AtRepair, "It clears: ", "Taken again after it: ", "Caution: ")
	enter(t, s, "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns")
	at(walk.AtService, "None of it is", "The usual mistake: ")
	enter(t, s, "pass")
	at(walk.AtHandBack)
	enter(t, s, "stops")
	at(walk.AtClose, "Only what is true is offered", "The usual mistake: ")
	enter(t, s, "close 1")
	at(ui.SureStage, "A closed job stays closed")
	enter(t, s, "yes")
	require.Equal(t, walk.AtClosed, s.Prompt().Stage)
	require.Contains(t, strings.Join(s.View(ui.Why), "\n"), "a new job", "plain lines end with a closed job")
	require.GreaterOrEqual(t, len(been), 8)
}

// Behind a view "?" is about that view, once.
func TestAViewIsExplained(t *testing.T) {
	s := beginPump(t, bench(t))
	for view, says := range map[string]string{"paths": "what a comeback would cost", "left": "Taking \"not tested\" for \"good\"", "found": "taken once more before anything is bought", "machine": "while the sticker is under the seat"} {
		said := inPlain(t, s, view, "?")
		require.Contains(t, said, says, view)
		require.NotContains(t, said, "low: below 12.4 V", view)
		require.Contains(t, inPlain(t, s, view, "?", "?"), "low: below 12.4 V", "%s: the second one is about the step", view)
	}
}

// Who can't tell when it is put right is shown how to, as at the intake.
func TestWhoCantTellIsShownLater(t *testing.T) {
	s := atClamp(t, "clamp", nil, nil)
	last := s.Facts().Last
	list := enter(t, s, "machine 1")
	number, _, _ := strings.Cut(list[len(list)-2], ". ")
	require.Contains(t, list[len(list)-2], "can't tell")
	require.Contains(t, enter(t, s, "machine 1 "+number)[0], "It is not tried out for this")
	require.Equal(t, last, s.Facts().Last)
}

// The words of the trade that stand in a step are explained with it, and no others.
func TestTheWordsOfAStepAreExplained(t *testing.T) {
	s := atClamp(t, "clamp", nil, nil)
	said := strings.Join(s.View(ui.Why), "\n")
	_, list, ok := strings.Cut(said, "Words that stand here:")
	require.True(t, ok, said)
	require.Contains(t, list, "  Milliohm: ")
	require.Contains(t, list, "  DC clamp: ")
	require.NotContains(t, list, "Stator")
	enter(t, s, "undo")
}

// Whole seconds under ten may be a key that was hit: they are asked about once, and
// recorded when they are typed with tenths or kept.
func TestAnAccidentalOneIsNoStopTime(t *testing.T) {
	for typed, asked := range map[string]bool{"1": true, "9 s": true, "0.05": true, "1.0": false, "1,2": false, "12": false} {
		now := int64(0)
		s := beginPump(t, timed(t, &now))
		enter(t, s, "runs_down "+typed)
		_, recorded := s.Facts().Answers["runs_down"]
		require.Equal(t, asked, !recorded, typed)
		if asked {
			enter(t, s, "keep")
			require.Contains(t, s.Facts().Answers, "runs_down", typed)
		}
	}
}
