package ui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/ui"
)

// FuzzTyped: whatever line is typed, what it is taken for names tests that there are, is
// harmless to show, and means the same when its answers are typed again, as those that
// were refused are.
func FuzzTyped(f *testing.F) {
	lib, _ := pump(f)
	sys := lib.Systems["spray-pump"]
	for _, line := range []string{
		"12.6", "rest 12.6; held 9", "rest 12.6 held 9 motor 11 V;", "rest", "rest;", ";;", "take rest", "take nothing", "note x", "note", "close 1 too dear", "close -1",
		"choose 99999999999999999999", "pass can't reach", "approve 1,200.50 Mrs. K, by telephone", "declined", "yes no", "YES", "tell 1", "suspects 2", "bin mot runs free", "\x1b[31mrest\x1b[0m 1", "rest\u202e 1", " rest\t1 ",
	} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		actions, err := ui.Parse(sys, line)
		if err != nil {
			require.Empty(t, actions)
			require.Equal(t, source.CleanLine(err.Error()), err.Error())
			return
		}
		var again []string
		for _, a := range actions {
			require.Equal(t, source.CleanLine(a.Text+a.Line), a.Text+a.Line)
			require.GreaterOrEqual(t, a.Pick, 0)
			if a.Test != "" {
				require.NotNil(t, sys.Test(a.Test), "%q", a.Test)
			}
			if a.Verb != ui.Answer {
				require.Len(t, actions, 1, "a word stands alone")
				again = append(again, a.Line)
				continue
			}
			require.NotEmpty(t, a.Text)
			again = append(again, strings.TrimSpace(a.Test+" "+a.Text))
		}
		same, err := ui.Parse(sys, strings.Join(again, "; "))
		require.NoError(t, err)
		require.Equal(t, actions, same)
	})
}
