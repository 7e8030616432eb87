package ui_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/trees/treetest"
	"benchlead/ui"
)

func shippedLibrary(t testing.TB) *tree.Library {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, "..", "trees"))
	require.NoError(t, issues.Err())
	return lib
}

// Whatever the owner says is three answers away at most, and every complaint
// belongs to some trouble.
func TestEveryComplaintIsThreeAnswersAway(t *testing.T) {
	lib := shippedLibrary(t)
	for id, s := range lib.Systems {
		for _, c := range s.Complaints {
			in := ui.NewIntake(lib)
			answers := 0
			for _, a := range []string{c.Trouble, id, c.ID} {
				require.NoError(t, in.Answer(a), "%s %s", id, c.ID)
				answers++
				if r := in.Result(); r.Complaint != "" {
					break
				}
			}
			r := in.Result()
			require.Equal(t, []string{id, c.ID}, []string{r.System, r.Complaint})
			require.LessOrEqual(t, answers, 3)
			q, ok := in.Question()
			require.True(t, ok)
			require.Equal(t, answers+1, q.Step)
			require.NotEmpty(t, q.Default, "the next question is of the machine: %s", q.Title)
		}
	}
}

func TestWordsLeadToAComplaint(t *testing.T) {
	lib := shippedLibrary(t)
	in := ui.NewIntake(lib)
	require.ErrorContains(t, in.Answer("flux capacitor"), "nothing here is called")
	require.ErrorContains(t, in.Answer("99"), "99")
	require.NoError(t, in.Answer("Rapid CLICK"))
	q, _ := in.Question()
	require.True(t, slices.ContainsFunc(q.Choices, func(c string) bool { return len(c) > 2 && c[2:7] == "Rapid" }), q.Choices)
	require.Error(t, in.Answer("other words"))
	require.NoError(t, in.Answer("1"))
	require.Equal(t, "rapid-clicks", in.Result().Complaint)
	require.Equal(t, "key-start-12v", in.Result().System)
}

// Another answer to the first question forgets what came of it.
func TestGoingBackForgetsTheMachine(t *testing.T) {
	in := ui.NewIntake(shippedLibrary(t))
	for _, a := range []string{"no-crank", "key-start-12v", "slow"} {
		require.NoError(t, in.Answer(a))
	}
	require.Equal(t, "slow", in.Result().Complaint)
	for range 3 {
		require.True(t, in.Back())
	}
	require.NoError(t, in.Answer("fuse"))
	require.Empty(t, in.Result().Complaint)
	require.Empty(t, in.Result().System)
	q, _ := in.Question()
	require.Equal(t, "On which machine", q.Title)
}

// A number with a question mark says how that machine is recognised, and answers
// nothing.
func TestAMachineIsExplainedBeforeItIsChosen(t *testing.T) {
	lib := shippedLibrary(t)
	in := ui.NewIntake(lib)
	q, _ := in.Question()
	_, ok := q.Explain("1?")
	require.False(t, ok, "a trouble needs no more words")
	require.NoError(t, in.Answer("no-crank"))
	q, _ = in.Question()
	require.Len(t, q.Tells, len(q.Choices))
	says, ok := q.Explain(" 1 ?")
	require.True(t, ok)
	require.Contains(t, says, "A lead-acid battery, a key with a start position")
	for _, text := range []string{"?", "1", "0?", "99?", "x?"} {
		_, ok = q.Explain(text)
		require.False(t, ok, text)
	}
}
