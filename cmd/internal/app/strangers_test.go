//go:build !windows

package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// harmless fails when a terminal would act on what was printed.
func harmless(t *testing.T, texts ...string) {
	t.Helper()
	for _, text := range texts {
		for _, bad := range []string{"\x1b", "\a", "\b", "\u009b", "\u202e", "\u2066", "\u200b"} {
			require.NotContains(t, text, bad)
		}
	}
}

// hostile is what a stranger may have put into any text or name.
const hostile = "\x1b[31mred\x1b]0;title\a\u009b31m\u202eflip\u200b\b"

// A pipe or a device in place of a file is refused, not waited for or read for ever.
func TestWhatIsNoPlainFileIsRefused(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.yaml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	folder := filepath.Dir(pipe)
	for _, args := range [][]string{
		{"judge", pipe},
		{"judge", folder},
		{"judge", "/dev/zero"},
		{"check", pipe},
		{"check", "--trees", folder}, // the last one counts
		{"settings", "--check", pipe},
		{"settings", "--settings", "/dev/zero"},
		{"prices", "--prices", pipe},
		{"prices", "import", pipe},
		{"import", pipe},
		{"jobs", "--record", pipe},
		{"walk", "--record", "/dev/zero"},
	} {
		code, out, errs := run(t, "", append([]string{"--trees", pumpTrees}, args...)...)
		require.Equal(t, ExitInput, code, args)
		require.Contains(t, errs, "not a plain file", args)
		require.Empty(t, out, args)
	}
}

// Trees of a stranger read nothing outside their folder.
func TestNoLinkLeadsOutOfAFolderOfTrees(t *testing.T) {
	folder, secret := t.TempDir(), filepath.Join(t.TempDir(), "secret.yaml")
	require.NoError(t, os.CopyFS(folder, os.DirFS(pumpTrees)))
	require.NoError(t, os.WriteFile(secret, []byte("password: 1234\n"), 0o600))
	inner := filepath.Join(folder, "again")
	require.NoError(t, os.Mkdir(inner, 0o700))
	require.NoError(t, os.Symlink("..", filepath.Join(inner, "up"))) // a circle
	code, _, errs := run(t, "", "check", "--trees", folder)
	require.Equal(t, ExitDone, code, errs)

	require.NoError(t, os.Symlink(secret, filepath.Join(folder, "z.yaml")))
	code, out, errs := run(t, "", "check", "--trees", folder)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "z.yaml")
	require.NotContains(t, out+errs, "password")
	code, _, errs = run(t, "", "check", "--trees", filepath.Join(folder, "none"))
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "no such file")
}

// However many mistakes a file has, a person is shown so many that they can be read.
func TestManyMistakesAreCounted(t *testing.T) {
	name := filepath.Join(t.TempDir(), "case.yaml")
	require.NoError(t, os.WriteFile(name, []byte("system: pump\nreadings:\n"+strings.Repeat("- {}\n", 20_000)), 0o600))
	code, _, errs := run(t, "", "judge", name, "--trees", pumpTrees)
	require.Equal(t, ExitInput, code)
	require.Less(t, len(errs), 100_000)
	require.Regexp(t, `and \d{5} more`, errs)
	require.Regexp(t, `\d{5} to mend`, errs)
}

// Names, words and variables of the environment reach the terminal harmless.
func TestHostileNamesAreHarmless(t *testing.T) {
	folder := filepath.Join(t.TempDir(), hostile)
	require.NoError(t, os.Mkdir(folder, 0o700))
	in := func(name string) string { return filepath.Join(folder, name) }
	record := []string{"--record", in("r.db"), "--trees", pumpTrees, "--prices", pumpPrices}
	with := func(args ...string) []string { return append(append([]string{}, record...), args...) }
	bad := in("bad.yaml")
	require.NoError(t, os.WriteFile(bad, []byte("system: \"\\u202eflip\\u001b\"\n\"\\u009bkey\": 1\n"), 0o600))
	csv := in("bad.csv")
	require.NoError(t, os.WriteFile(csv, fmt.Appendf(nil, "part,grade,price\n%q,original,1\nx,\u202ey,\u202ez\n", hostile), 0o600))
	intake := strings.Join(intakeLines, "\n") + "\n"
	for _, c := range []struct {
		in   string
		args []string
	}{
		{"", with("jobs")},
		{intake + "note " + hostile + "\nrest 12.6\n" + hostile + "\n", with("walk")},
		{"", with("jobs", hostile)},
		{"", with("report", "1")},
		{"", with("report", "1", "--csv")},
		{"", with("report", "1", "--html")},
		{"", with("report", "1", "--json")},
		{"", with("report", "1", "--to", in("r.html"))},
		{"", with("report", hostile)},
		{"", with("backup")},
		{"", with("backup", in("copy.db"))},
		{"", with("backup", in("copy.db"))}, // it is there already
		{"", with("backup", "--restore")},
		{"", with("backup", "--restore", in("copy.db"))},
		{"", with("export", "--json", in("x.json"))},
		{"", with("export", "--csv", in("tables"))},
		{"", with("import", in("x.json"))},
		{"", with("import", bad)},
		{"", with("prices", "import", csv)},
		{"", with("prices", "find", hostile)},
		{"", with("bin", "add", hostile)},
		{"", with("bin", "out", hostile, "--sold", hostile)},
		{"", with("judge", bad)},
		{"", with("check", "--trees", folder)}, // the last one counts
		{"", with("check", in("none.yaml"))},
		{"", with("settings", "--settings", in("none.yaml"))},
		{"", with("settings", "--check", bad)},
		{"", with(hostile)},
		{"", with("--" + hostile)},
		{"", with("help", hostile)},
		{"", with("trees", hostile)},
		{"", with("schema", hostile)},
	} {
		_, out, errs := run(t, c.in, c.args...)
		require.NotEmpty(t, out+errs, c.args)
		harmless(t, out, errs)
	}
	harmless(t, readAll(t, in("r.html")), readAll(t, filepath.Join(in("tables"), "jobs.csv")))

	var out, errs strings.Builder
	env := func(string) string { return in("none") }
	Run(t.Context(), []string{"jobs", "--trees", pumpTrees}, Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, env)
	require.NotEmpty(t, errs.String())
	harmless(t, out.String(), errs.String())
}

func readAll(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(data)
}

// A cell that a spreadsheet would run is only text, in every table.
func TestNoCellIsAFormula(t *testing.T) {
	record := []string{"--record", filepath.Join(t.TempDir(), "r.db"), "--trees", pumpTrees, "--prices", pumpPrices}
	with := func(args ...string) []string { return append(append([]string{}, record...), args...) }
	lines := append([]string{}, intakeLines...)
	lines[2] = "=HYPERLINK(1)"
	code, out, errs := run(t, strings.Join(lines, "\n")+"\nnote @SUM(1)\nrest 12.6\n", with("walk")...)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "This is job 1.")
	folder := t.TempDir()
	code, _, errs = run(t, "", with("export", "--csv", folder)...)
	require.Equal(t, ExitDone, code, errs)
	tables := ""
	for _, name := range inFolder(t, folder) {
		tables += readAll(t, filepath.Join(folder, name))
	}
	_, csv, _ := run(t, "", with("report", "1", "--csv")...)
	require.Contains(t, tables, "'=HYPERLINK(1)")
	for _, start := range []string{",=", "\n=", "\"=", ",@", "\n@", ",+", ",\t"} {
		require.NotContains(t, tables+csv, start)
	}
}
