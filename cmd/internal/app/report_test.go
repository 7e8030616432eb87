package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Who reads it, and in which form: what goes together, and what is refused.
func TestReportCopies(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		want string // in the output, or in the error
	}{
		{nil, ExitDone, "READINGS"},
		{[]string{"--for", "bench", "--html"}, ExitDone, "<h2>Readings</h2>"},
		{[]string{"--html"}, ExitDone, "<h2>Readings</h2>"},
		{[]string{"--json"}, ExitDone, `"not_to_be_used": []`},
		{[]string{"--csv"}, ExitDone, "healthy_from"},
		{[]string{"--for", "owner"}, ExitDone, "BEFORE AND AFTER"},
		{[]string{"--for", "owner", "--html"}, ExitDone, "<h2>Before and after</h2>"},
		{[]string{"--for", "message"}, ExitDone, "Market-garden tiller, job 2: It is repaired and tested."},
		{[]string{"--for", "tag", "--text"}, ExitDone, "State:     ready"},
		{[]string{"--for", "tag", "--html"}, ExitDone, "@page { size: 100mm 62mm"},
		{[]string{"--for", "message", "--html"}, ExitUsage, "no --html for the message; it is to be had as --text"},
		{[]string{"--for", "owner", "--csv"}, ExitUsage, "no --csv for the owner; it is to be had as --text and --html"},
		{[]string{"--for", "tag", "--json"}, ExitUsage, "no --json for the tag"},
		{[]string{"--for", "buyer"}, ExitUsage, "choose one of --for bench, owner, message, tag"},
		{[]string{"--for", "owner", "--text", "--html"}, ExitUsage, "choose one of"},
		{[]string{"--for", "message", "--to", "m.html"}, ExitUsage, "no --html for the message"},
	} {
		t.Run(strings.Join(c.args, " "), func(t *testing.T) {
			code, out, errs := run(t, "", append([]string{"report", "2", "--demo"}, c.args...)...)
			require.Equal(t, c.code, code, errs)
			if code != ExitDone {
				out = errs
			}
			require.Contains(t, out, c.want)
		})
	}
}

// Without a form the file's name says it; with one, the form does.
func TestTheNameOfTheFileSaysTheForm(t *testing.T) {
	dir := t.TempDir()
	for name, begins := range map[string]string{"a.html": "<!DOCTYPE html>", "b.HTM": "<!DOCTYPE html>", "c.json": "{", "d.csv": "job,", "e.txt": "Report of job 2", "f": "Report of job 2"} {
		to := filepath.Join(dir, name)
		code, out, errs := run(t, "", "report", "2", "--demo", "--to", to)
		require.Equal(t, ExitDone, code, errs)
		require.Contains(t, out, "Written: "+to)
		data, err := os.ReadFile(to)
		require.NoError(t, err)
		require.True(t, strings.HasPrefix(string(data), begins), name)
	}
	to := filepath.Join(dir, "g.html")
	code, _, errs := run(t, "", "report", "2", "--demo", "--for", "owner", "--text", "--to", to)
	require.Equal(t, ExitDone, code, errs)
	data, err := os.ReadFile(to)
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(data), "Market-garden tiller"))
}
