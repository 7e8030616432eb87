package app

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pumpWithCircuit is a folder with the small library and the circuit of its pump,
// and with a complaint for machines that nothing is wrong with.
func pumpWithCircuit(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, pattern := range []string{"testdata/trees/pump/*.yaml", "diag/prove/testdata/*.yaml"} {
		files, err := filepath.Glob(filepath.Join("..", "..", "..", pattern))
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, name := range files {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			const dead = "trees: [no-run]}"
			text := strings.Replace(string(data), dead, dead+"\n  - {complaint: well, title: Look it over, trees: [charging]}", 1)
			require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.Base(name)), []byte(text), 0o600))
		}
	}
	return dir
}

// bent is a copy of a table in which one row has other figures.
func bent(t *testing.T, table, row, figures string) string {
	t.Helper()
	data, err := os.ReadFile(table)
	require.NoError(t, err)
	was := regexp.MustCompile(`(?m)^(` + row + `)( +\d+){7}( +[\d.]+ +[\d.]+)$`)
	require.Len(t, was.FindAll(data, -1), 1, "%s in\n%s", row, data)
	name := filepath.Join(t.TempDir(), "bent.txt")
	require.NoError(t, os.WriteFile(name, was.ReplaceAll(data, []byte("$1 "+figures+"$3")), 0o600))
	return name
}

// A switch that is open is found by the pump's tree whatever else it makes of it.
const openSwitch = `no-run +spray-pump +sw\.open`

func TestFiguresAreStoredAndHeldAgainst(t *testing.T) {
	trees, table := pumpWithCircuit(t), filepath.Join(t.TempDir(), "figures.txt")
	prove := func(args ...string) (int, string, string) {
		return run(t, "", append([]string{"--trees", trees, "prove"}, args...)...)
	}
	code, out, errs := prove("--draws", "6", "--seed", "3", "--store", table)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "Written: "+table)
	data, err := os.ReadFile(table)
	require.NoError(t, err)
	require.Contains(t, string(data), "\ndraws 6\nseed 3\n")
	require.Regexp(t, `(?m)^`+openSwitch+` +6 +6 +0 +0 +0 +0 +0 +[\d.]+ +[\d.]+$`, string(data))

	for _, c := range []struct {
		name, table string
		args        []string
		code        int
		out, errs   string
	}{
		{"draws and seed come from the table", table, nil, ExitDone, "0 worse, 10 as stored", ""},
		{"the same draws typed", table, []string{"--draws", "6", "--seed", "3"}, ExitDone, "0 worse", ""},
		{"one tree", table, []string{"no-run"}, ExitDone, "0 worse, 5 as stored", ""},
		{"other draws", table, []string{"--draws", "7"}, ExitUsage, "", "--draws 6 --seed 3: write these, or neither"},
		{"another seed", table, []string{"--seed", "1"}, ExitUsage, "", "--draws 6 --seed 3: write these, or neither"},
		{"a drop", bent(t, table, openSwitch, "7 7 0 0 0 0 0"), nil, ExitInput, "WORSE: no-run (spray-pump), sw.open: found, by itself or in a group: 6, was 7", "mend the trees named"},
		{"a drop in a tree that was not asked", bent(t, table, openSwitch, "7 7 0 0 0 0 0"), []string{"charging"}, ExitDone, "0 worse, 5 as stored", ""},
		{"a gain", bent(t, table, openSwitch, "6 5 0 0 0 1 0"), nil, ExitDone, "1 differ and are not worse: the table can be written anew", ""},
		{"a row that is no row", bent(t, table, openSwitch, "6 6 0 0 0 0 none"), nil, ExitInput, "", "bent.txt:30:59: a number of machines"},
		{"no such table", filepath.Join(trees, "none.txt"), nil, ExitInput, "", "none.txt"},
		{"a folder", trees, nil, ExitInput, "", "not a plain file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := prove(append(c.args, "--against", c.table)...)
			require.Equal(t, c.code, code, "%s\n%s", out, errs)
			require.Contains(t, out, c.out)
			require.Contains(t, errs, c.errs)
			if c.code == ExitDone {
				require.Empty(t, errs)
			}
		})
	}
}

func TestOptionsThatDoNotGoWithATable(t *testing.T) {
	dir := t.TempDir()
	base := filepath.Join(dir, "d.db")
	require.NoError(t, os.WriteFile(base, []byte("SQLite format 3\x00"), 0o600))
	for _, c := range []struct {
		args string
		code int
		errs string
	}{
		{"--suspects no-run", ExitUsage, "write systems, and no trees"},
		{"--suspects --pairs", ExitUsage, "write only --draws, --seed"},
		{"--suspects --against none.txt", ExitInput, "none.txt can't be read"},
		{"--suspects --against a.txt --store b.txt", ExitUsage, "--store or --against"},
		{"--suspects --draws 0", ExitUsage, "--draws 0"},
		{"--untaken 51", ExitUsage, "--untaken 51"},
		{"--against t --store t", ExitUsage, "choose one"},
		{"--against t --json", ExitUsage, "choose one"},
		{"--store t --json", ExitUsage, "choose one"},
		{"--against t --pairs", ExitUsage, "leave out --pairs, --slips, --untaken and --shift"},
		{"--against t --slips 1", ExitUsage, "leave out --pairs, --slips, --untaken and --shift"},
		{"--store t --shift 1", ExitUsage, "leave out --pairs, --slips, --untaken and --shift"},
		{"--store t no-crank-key", ExitUsage, "leave out their names"},
		{"--against t --draws 0", ExitUsage, "write a number from 1 to 100000"},
		{"--store " + base, ExitInput, "is a database"},
		{"--store " + dir, ExitInput, "not written to " + dir},
	} {
		t.Run(c.args, func(t *testing.T) {
			code, out, errs := run(t, "", append([]string{"prove"}, strings.Fields(c.args)...)...)
			require.Equal(t, c.code, code, errs)
			require.Empty(t, out)
			require.Contains(t, errs, c.errs)
		})
	}
}
