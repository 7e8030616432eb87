package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestAJobOpenedAgainSaysWhichItIs(t *testing.T) {
	s := beginPump(t, bench(t))
	require.Regexp(t, `^Job 1, `, s.Resumed()[0])
	require.Equal(t, "Nothing was tested yet.", s.Resumed()[1])
	enter(t, s, "rest 12.8")
	require.Equal(t, "No fault is found so far, with one answer taken.", s.Resumed()[1])
	enter(t, s, "charger 0")
	require.Equal(t, "Found so far: the charger is dead.", s.Resumed()[1])
}

// After a mistake the last line says once more what is asked, with its unit; a choice may
// be told from the word "choose".
func TestTheLastLineAfterAMistakeIsTheQuestion(t *testing.T) {
	s := beginPump(t, bench(t))
	require.Contains(t, inPlain(t, s, "rubbish"), "\nType the reading, in volts, or pass, for: battery at rest.\n")
	require.Contains(t, inPlain(t, s, "why"), "\nType the reading, in volts, or pass.\n")
	said, err := takenIn(t, "99")
	require.Error(t, err)
	require.Regexp(t, `\? Type a number of the list.*\n$`, said)
}

func TestTheIntakeExplainsTheQuestionAndGoesBack(t *testing.T) {
	said, err := takenIn(t, "h")
	require.Error(t, err)
	require.Contains(t, said, "What it is for: It settles which faults and tests the machine has.")
	said, _ = takenIn(t, "1", "go back")
	require.Regexp(t, `(?s)Question 1\..*Question 2.*Question 1\.`, said)
}

func TestAChoiceMayBeTypedBehindChoose(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "rest 12.8; held 8.2; motor 0", "take turns", "yes")
	test := s.Position().Test
	name := test.Choices[0].Name
	enter(t, s, "choose "+name)
	require.Equal(t, name, s.Position().Results[test.ID].Choice)
	_, err := s.Enter(t.Context(), "choose nonsense")
	require.Error(t, err)
}
