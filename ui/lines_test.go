package ui_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui"
	"benchlead/ui/line"
)

// inPlain types lines into the plain face at an open job, and returns all it said.
func inPlain(t *testing.T, s *ui.Session, typed ...string) string {
	t.Helper()
	var out bytes.Buffer
	in := strings.NewReader(strings.Join(typed, "\n") + "\n")
	require.ErrorIs(t, line.New(in, &out).Walk(context.Background(), s), line.ErrEnd)
	return out.String()
}

// takenIn types lines into an intake of the plain face.
func takenIn(t *testing.T, typed ...string) (said string, err error) {
	t.Helper()
	var out bytes.Buffer
	_, err = line.New(strings.NewReader(strings.Join(typed, "\n")+"\n"), &out).Intake(bench(t))
	return out.String(), err
}

// What is refused, or only looked at, does not have the whole step said again; "again"
// does, in full.
func TestAStepIsSaidOnce(t *testing.T) {
	s := beginPump(t, bench(t))
	const step = "Battery at rest. 1 minute.\n"
	for _, typed := range []string{"rubbish", "why", "?", "left", "found", "help", "note it hums", "", "126"} {
		said := inPlain(t, s, typed)
		require.Equal(t, 1, strings.Count(said, step), "%q: %s", typed, said)
		require.True(t, strings.HasSuffix(said, ".\n"), said)
		last := strings.Split(strings.TrimSpace(said), "\n")
		require.True(t, strings.HasPrefix(last[len(last)-1], "Type the reading"), "what may be typed is said last: %s", said)
	}
	for _, typed := range []string{"again", "AGAIN"} {
		require.Equal(t, 2, strings.Count(inPlain(t, s, typed), step), typed)
	}
}

// A number that answers the step as well as a list that was just said is asked about
// once: nobody who has just heard the ways means the step by it.
func TestANumberAfterAListIsAskedAbout(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "rest 12.8; held 8.2; motor 0", "take turns", "yes") // a fault is found, and a look is asked
	require.Equal(t, "turns", s.Position().Test.ID)
	last := s.Facts().Last
	for _, list := range []string{"paths", "close"} {
		said := inPlain(t, s, list, "1")
		require.Contains(t, said, "1 may be meant for the list just said or for the step. Type \"")
		require.Equal(t, last, s.Facts().Last, "nothing was recorded")
	}
	require.Contains(t, inPlain(t, s, "paths", "1"), `Type "choose 1" for the list`)
	require.Contains(t, inPlain(t, s, "close", "1"), `Type "close 1" for the list`)
	inPlain(t, s, "paths", "1", "1")
	require.Contains(t, s.Facts().Answers, "turns", "said once more it is the answer")
	enter(t, s, "undo", "take turns")
	require.NotContains(t, s.Facts().Answers, "turns")
	inPlain(t, s, "paths", "why", "1")
	require.Contains(t, s.Facts().Answers, "turns", "the list is not what was said last")
}

// Help and a way out at every question of the intake.
func TestTheIntakeHelps(t *testing.T) {
	for _, word := range []string{"?", "help", "Help"} {
		said, err := takenIn(t, word)
		require.ErrorIs(t, err, line.ErrEnd)
		require.Contains(t, said, `"back" goes to the question before`)
		require.NotContains(t, said, "is none of")
		require.Equal(t, 2, strings.Count(said, "Question 1."), said)
	}
	said, err := takenIn(t, "1", "?")
	require.ErrorIs(t, err, line.ErrEnd)
	require.Contains(t, said, "So far:\n", "and what was answered")
	said, err = takenIn(t, "1", "leave")
	require.ErrorIs(t, err, line.ErrLeft)
	require.NotContains(t, said, "Question 3")
	said, err = takenIn(t, "77", "again")
	require.ErrorIs(t, err, line.ErrEnd)
	require.Equal(t, 2, strings.Count(said, "Question 1."), "an error does not have it said again, \"again\" does: %s", said)
}

// Who hears the name of a test hears no line between its parts, and may say its title.
func TestATestIsTakenByWhatIsHeard(t *testing.T) {
	lib, _ := pump(t)
	sys := lib.Systems["spray-pump"]
	for _, test := range sys.Tests {
		for _, said := range []string{test.ID, strings.ReplaceAll(test.ID, "_", " "), strings.ToUpper(test.Title)} {
			acts, err := ui.Parse(sys, "take "+said)
			require.NoError(t, err)
			require.Equal(t, test.ID, acts[0].Test)
		}
	}
	_, err := ui.Parse(sys, "take nothing of the kind")
	require.Error(t, err)
}

// The words that are offered are of use where the job stands, and each is understood.
func TestOnlyWordsThatWorkAreOffered(t *testing.T) {
	s := beginPump(t, bench(t))
	said := strings.Join(s.Words(), "\n")
	for _, no := range []string{"tick", "approve", "declined", "time", "keep", "bin PART", "all:", "suspects"} {
		require.NotContains(t, said, no)
	}
	enter(t, s, "126")
	require.Contains(t, strings.Join(s.Words(), "\n"), "keep: ")
	require.NotContains(t, said, "[")
}
