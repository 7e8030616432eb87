package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/prove/mutant"
	"benchlead/diag/prove/rerun"
	"benchlead/diag/source"
)

const root = "../../../"

// pump writes the small library with its circuit into a folder.
func pump(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	for _, from := range []string{"testdata/trees/pump", "diag/prove/testdata"} {
		names, err := filepath.Glob(root + from + "/*.yaml")
		require.NoError(t, err)
		require.NotEmpty(t, names)
		for _, name := range names {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			text := strings.Replace(string(data), "trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}", 1)
			require.NoError(t, os.WriteFile(filepath.Join(folder, filepath.Base(name)), []byte(text), 0o600))
		}
	}
	return folder
}

// In the pump's tree nothing is known of a motor that smokes, and cuts lie far
// from all readings: a blind spot for each, so far fewer are caught than should be.
func TestBlindSpotsAreListedAndFailTheRun(t *testing.T) {
	known := filepath.Join(t.TempDir(), "known.txt")
	require.NoError(t, os.WriteFile(known, []byte("# a comment\nbecause: no circuit lets the motor smoke\ntrees/trees.yaml: bypass smoke\ntrees/trees.yaml: bypass held\n"), 0o600))
	var out bytes.Buffer
	err := run([]string{"-trees", pump(t), "-known", known, "-draws", "10", "-hands", "0", "-pairs", "2"}, &out, io.Discard)
	require.ErrorIs(t, err, errFew)
	text := out.String()
	require.Contains(t, text, "trees/trees.yaml:16: bypass smoke\n    the step smoke is gone; what led to it leads to end\n    no machine comes near it\n    no circuit lets the motor smoke\n")
	require.Contains(t, text, "trees/system.yaml:65: cut motor (none) x1.4\n    below: 1.4 * (1) instead of 1\n    no machine comes near it\n    no reason is known\n")
	require.Contains(t, text, "stands among the survivors, and is none: trees/trees.yaml: bypass held\n")
	require.Regexp(t, `\ncut +14 `, text)
	require.Regexp(t, `\nrefused for judged-never-found: \d+\n`, text)
}

func TestTheSameRunTellsTheSame(t *testing.T) {
	folder := pump(t)
	told := func() string {
		var out bytes.Buffer
		err := run([]string{"-trees", folder, "-known", "", "-draws", "6", "-pairs", "1", "-sample", "12"}, &out, io.Discard)
		require.ErrorIs(t, err, errFew)
		return out.String()
	}
	first := told()
	require.Regexp(t, `\nall +12 `, first)
	require.Equal(t, first, told())
}

func TestATreeAloneIsBrokenWithItsTests(t *testing.T) {
	j, err := newJob(options{folder: pump(t), trees: []string{"charging"}})
	require.NoError(t, err)
	for _, m := range j.mutants {
		require.True(t, m.Touch.Tree == "charging" || m.Touch.Test == "charger", m.Name)
	}
	// Two cuts twice; none swapped with each of the three others; two steps.
	require.Len(t, j.mutants, 4+3+2)

	_, err = newJob(options{folder: pump(t), trees: []string{"charing"}})
	require.ErrorContains(t, err, `there is no tree "charing"`)
}

func TestTreesThatAreBrokenAlreadyAreNotBrokenFurther(t *testing.T) {
	folder := pump(t)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "more.yaml"), []byte("tree: x\n"), 0o600))
	_, err := newJob(options{folder: folder})
	require.ErrorContains(t, err, "must be whole before they are broken")
}

func TestASurvivorNeedsAReasonAbove(t *testing.T) {
	name := filepath.Join(t.TempDir(), "known.txt")
	for text, want := range map[string]string{
		"a: cut b\n":                      `known.txt:1: no reason stands above`,
		"because: x\na: b\n\n# y\na: b\n": `known.txt:5: this survivor stands twice`,
	} {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
		_, err := readKnown(name)
		require.ErrorContains(t, err, want)
	}
	require.NoError(t, os.WriteFile(name, []byte("because: x\na: b\nc: d\nbecause: y\ne: f\n"), 0o600))
	known, err := readKnown(name)
	require.NoError(t, err)
	require.Equal(t, map[string]string{"a: b": "x", "c: d": "x", "e: f": "y"}, known)
	known, err = readKnown(filepath.Join(t.TempDir(), "none.txt"))
	require.NoError(t, err)
	require.Empty(t, known)
}

func TestTheShareIsOfAllThatWereMade(t *testing.T) {
	mutants := []mutant.Mutant{{Kind: mutant.Cut, Name: "a"}, {Kind: mutant.Swap, Name: "b"}, {Kind: mutant.Swap, Name: "c"}, {Kind: mutant.Bypass, Name: "d"}}
	results := []result{
		{Mutant: &mutants[0], refused: &source.Issue{Code: "cuts-out-of-order"}},
		{Mutant: &mutants[1], finding: rerun.Finding{By: rerun.Singles}},
		{Mutant: &mutants[2], finding: rerun.Finding{By: rerun.Pairs}},
		{Mutant: &mutants[3]},
	}
	got := newTally(results, map[string]string{"b": "x", "d": "x", "z": "x"}, true)
	require.InDelta(t, 0.75, got.share(), 1e-9)
	require.Equal(t, counts{made: 4, refused: 1, survived: 1, by: map[rerun.By]int{rerun.Singles: 1, rerun.Pairs: 1}}, got.sum())
	require.Equal(t, []string{"b", "z"}, got.gone)
	require.Equal(t, []string{"b"}, newTally(results, map[string]string{"b": "x", "z": "x"}, false).gone, "z may be among those that were not tried")
}

func TestOptionsOutOfBoundsAreSaid(t *testing.T) {
	for _, args := range [][]string{{"-sample", "-1"}, {"-draws", "0"}, {"-pairs", "-1"}, {"-hands", "-1"}} {
		require.Error(t, run(args, io.Discard, io.Discard), args)
	}
}
