package app

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWordsOfTheTrade(t *testing.T) {
	code, all, errs := run(t, "", "words")
	require.Zero(t, code, errs)
	require.Greater(t, strings.Count(all, "\n"), 19)
	for _, c := range []struct {
		typed []string
		want  string
	}{
		{[]string{"stator"}, "Stator: "},
		{[]string{"Voltage", "drop"}, "Voltage drop: "},
		{[]string{"voltage drop"}, "Voltage drop: "},
		{[]string{"CCA"}, "Cold-cranking amps: "},
		{[]string{"kill wire"}, "Stop wire: "},
		{[]string{"strap"}, "Ground: "}, // in a form of several words
	} {
		code, out, errs := run(t, "", append([]string{"words"}, c.typed...)...)
		require.Zero(t, code, errs)
		require.Equal(t, 1, strings.Count(out, "\n"), out)
		require.True(t, strings.HasPrefix(out, c.want), out)
		require.Contains(t, all, out, "as in the whole list")
	}
	code, out, errs := run(t, "", "words", "statr\x1b[31m")
	require.Equal(t, ExitInput, code)
	require.Empty(t, out)
	require.Contains(t, errs, "is not among the words of the trade")
	require.NotContains(t, errs, "\x1b")

	code, out, errs = run(t, "", "words", "stator", "--json")
	require.Zero(t, code, errs)
	var said struct {
		Words []struct{ Word, Means, Basis string }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &said))
	require.Len(t, said.Words, 1)
	require.Equal(t, "stator", said.Words[0].Word)
	require.Contains(t, said.Words[0].Basis, "common practice")

	require.Contains(t, completed(t, filepath.Join(t.TempDir(), "r.db"), "words", "st"), "stator")
}
