package app

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// completed is what a shell is offered behind the words of a command line; the last
// word is the one that is begun.
func completed(t *testing.T, record string, words ...string) []string {
	t.Helper()
	var out, errs bytes.Buffer
	code := Run(context.Background(), append([]string{"__complete"}, words...), Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, testEnv(record))
	require.Zero(t, code, errs.String())
	var names []string
	for _, l := range strings.Split(out.String(), "\n") {
		name, _, _ := strings.Cut(l, "\t")
		names = append(names, name)
	}
	return names
}

func TestAShellCompletesNames(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	for _, c := range []struct {
		words []string
		want  string
	}{
		{[]string{"trees", ""}, "key-start-12v"},
		{[]string{"prove", ""}, "battery-posts"},
		{[]string{"prove", "--suspects", ""}, "key-start-12v"},
		{[]string{"prices", "show", ""}, "battery-12v"},
		{[]string{"bin", "add", ""}, "pack-starter"},
		{[]string{"jobs", "--fault", ""}, "cable.ground"},
		{[]string{"jobs", "--outcome", ""}, "proved"},
		{[]string{"report", "--for", ""}, "owner"},
		{[]string{"schema", ""}, "case"},
		{[]string{"judge", ""}, "yaml"},
		{[]string{"settings", "--check", ""}, "yaml"},
		{[]string{"tre"}, "trees"},
	} {
		require.Contains(t, completed(t, record, c.words...), c.want, "%v", c.words)
	}
	require.NotContains(t, completed(t, record, "trees", "key-start-12v", ""), "key-start-12v", "one system at most")
	require.NoFileExists(t, record, "completing begins no record")
}

// The jobs on record are offered, the open ones to go on with; text of the record
// reaches the terminal harmless.
func TestAShellCompletesJobs(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	require.Equal(t, ":36", completed(t, record, "walk", "")[0], "no record, no jobs")
	intake := "5\n1\nMower \x1b[31m\n" + strings.Repeat("\n", 13)
	for range 2 {
		code := Run(context.Background(), []string{"walk"}, Streams{In: strings.NewReader(intake), Out: new(bytes.Buffer), Err: new(bytes.Buffer)}, testEnv(record))
		require.Zero(t, code)
	}
	before, err := os.ReadDir(filepath.Dir(record))
	require.NoError(t, err)
	for _, verb := range []string{"walk", "report"} {
		require.Equal(t, []string{"2", "1"}, completed(t, record, verb, "")[:2], "the newest first")
	}
	var out bytes.Buffer
	Run(context.Background(), []string{"__complete", "walk", ""}, Streams{In: strings.NewReader(""), Out: &out, Err: new(bytes.Buffer)}, testEnv(record))
	require.NotContains(t, out.String(), "\x1b")
	after, err := os.ReadDir(filepath.Dir(record))
	require.NoError(t, err)
	require.Len(t, after, len(before))
}
