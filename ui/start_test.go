package ui_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/trees/treetest"
	"benchlead/ui"
)

var opened *tree.Library

func shippedLibrary(t testing.TB) *tree.Library {
	t.Helper()
	if opened == nil {
		lib, issues := tree.Open(treetest.Read(t, "..", "trees"))
		require.NoError(t, issues.Err())
		opened = lib
	}
	return opened
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

// People say it in their own words: the first that is shown is of the right machine.
func TestWhatPeopleSayLeadsSomewhere(t *testing.T) {
	lib := shippedLibrary(t)
	for words, want := range map[string]string{
		"keeps running when I leave the seat": "safety-chains",
		"won't stop":                          "magneto-stop",
		"wont stop":                           "magneto-stop",
		"no spark":                            "magneto-stop",
		"blades won't come on":                "blade-clutch",
		"PTO":                                 "blade-clutch",
		"generator no power":                  "generator-brushed",
		"usb socket drain":                    "standing-12v",
		"rapid clicking":                      "key-start-12v",
		"jumper on a safety switch":           "safety-chains",
		"glow plugs":                          "small-diesel",
		"fuse blows":                          "fuse-12v",
	} {
		found := ui.Search(lib, words)
		const seen = 5
		require.True(t, slices.ContainsFunc(found[:min(len(found), seen)], func(m ui.Match) bool { return m.System.ID == want }),
			"%q leads to %v", words, titles(found))
	}
	for _, words := range []string{"won't start", "dead battery", "parasitic draw", "doesn't stop", "kill switch", "getting off the seat"} {
		require.NotEmpty(t, ui.Search(lib, words), words)
	}
	require.Empty(t, ui.Search(lib, "flux capacitance"))
}

func titles(found []ui.Match) []string {
	var out []string
	for _, m := range found {
		out = append(out, m.System.ID+": "+m.Complaint.Title)
	}
	return out
}

func TestWordsLeadToAComplaint(t *testing.T) {
	lib := shippedLibrary(t)
	in := ui.NewIntake(lib)
	require.ErrorContains(t, in.Answer("flux capacitance"), "nothing here is called")
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
	require.Len(t, q.Tells, len(q.Choices)-1, "the last is for who can't tell")
	says, ok := q.Explain(" 1 ?")
	require.True(t, ok)
	require.Contains(t, says[0], "A lead-acid battery, a key with a start position")
	for _, text := range []string{"?", "1", "0?", "99?", "x?"} {
		_, ok = q.Explain(text)
		require.False(t, ok, text)
	}
}
