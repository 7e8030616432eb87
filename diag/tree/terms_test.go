package tree

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A small m and a large one are a billionfold apart.
func TestMegohmIsNoMilliohm(t *testing.T) {
	_, lib, _ := shippedOutlined(t)
	for text, want := range map[string]string{"limit 1 Mohm": "megohm", "32 mohm": "milliohm", "a megohm": "megohm"} {
		got := lib.TermsIn(text)
		require.Len(t, got, 1, text)
		require.Equal(t, want, got[0].Word)
	}
}

func TestTermsInAText(t *testing.T) {
	lib := &Library{Terms: []Term{{Word: "field"}, {Word: "OL"}, {Word: "pull-in winding", Also: []string{"pull-in"}}, {Word: "winding"}}}
	for text, want := range map[string]string{
		"It shows OL.":                      "OL",
		"Cold oil in the airfield":          "",
		"FIELD and ol, both":                "field, OL",
		"The pull-in winding alone":         "pull-in winding",
		"The pull-in winding and a winding": "pull-in winding, winding",
		"A rewinding shop":                  "",
		"Überfield, field":                  "field",
		"":                                  "",
	} {
		var got []string
		for _, term := range lib.TermsIn(text) {
			got = append(got, term.Word)
		}
		require.Equal(t, want, strings.Join(got, ", "), text)
	}
}

// Each word of the list stands in some text of the trees, says what it means in few
// words, and gives no limit: those are worked out in the tests.
func TestTheShippedWordsAreUsed(t *testing.T) {
	_, lib, _ := shippedOutlined(t)
	used := map[string]bool{}
	for _, s := range lib.Systems {
		for _, x := range s.Tests {
			text := strings.Join([]string{x.Title, x.Tell, x.Why, x.Mistake, x.Scale}, "\n")
			for _, p := range s.Points {
				if p.ID == x.Red || p.ID == x.Black {
					text += "\n" + p.Title
				}
			}
			for _, b := range x.Bands {
				text += "\n" + b.Says
			}
			for _, term := range lib.TermsIn(text) {
				used[term.Word] = true
			}
		}
	}
	require.GreaterOrEqual(t, len(lib.Terms), 20)
	require.LessOrEqual(t, len(lib.Terms), 60)
	var idle []string
	for _, term := range lib.Terms {
		if !used[term.Word] {
			idle = append(idle, term.Word)
		}
		require.LessOrEqual(t, len(term.Means), 230, term.Word)
		require.False(t, strings.ContainsAny(term.Means, "0123456789"), "%q gives a figure: %s", term.Word, term.Means)
		require.False(t, slices.Contains(term.Also, term.Word), term.Word)
	}
	require.Empty(t, idle, "words that stand in no test")
}
