package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What judge doesn't take, check shows where it stands.
func TestCheckShowsReadingsThatJudgeDoesNotTake(t *testing.T) {
	notRaced(t)
	name := filepath.Join(t.TempDir(), "case.yaml")
	text := strings.NewReplacer(`"11.2"`, `"126"`, `dc volts, red: block`, "ac volts, red: block", `"off", value`, `"off", with: [], value`).Replace(indentless(exampleCase))
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	code, _, errs := run(t, "", "check", name)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "case.yaml:7:83: this can't be taken (126 on dc volts")
	require.Contains(t, errs, "case.yaml:8:5: this can't be taken (1.94 on ac volts")
	require.Contains(t, errs, "set the meter to DC")
	require.Contains(t, errs, "\n2 to mend.\n", "check runs nothing, and need not say so")
	code, out, _ := run(t, "", "judge", name)
	require.Equal(t, ExitDone, code)
	require.Contains(t, out, "\n2 readings not taken; ")
}

// indentless is the example of the help as a file.
func indentless(text string) string {
	return strings.TrimPrefix(strings.ReplaceAll("\n"+text, "\n    ", "\n"), "\n")
}

func TestTheExampleOfTheHelpIsTakenWhole(t *testing.T) {
	notRaced(t)
	_, help, _ := run(t, "", "judge", "--help")
	require.Contains(t, help, exampleCase)
	name := filepath.Join(t.TempDir(), "case.yaml")
	require.NoError(t, os.WriteFile(name, []byte(indentless(exampleCase)), 0o600))
	code, out, errs := run(t, "", "check", name)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, ", 1 case file: nothing to mend.")
	_, out, _ = run(t, "", "judge", name)
	require.NotContains(t, out, "ot taken")
	require.Contains(t, out, "Ground side, volts lost: 1.940")
}

// A file that ends in another way would be passed over without a word.
func TestAFileEndingInYmlIsNotPassedOver(t *testing.T) {
	folder := t.TempDir()
	copyTrees(t, pumpTrees, folder)
	require.NoError(t, os.Rename(filepath.Join(folder, "lists.yaml"), filepath.Join(folder, "lists.yml")))
	code, out, errs := run(t, "", "check", "--trees", folder)
	require.Equal(t, ExitInput, code)
	require.Empty(t, out)
	require.Contains(t, errs, "lists.yml:1:1: only files that end in .yaml are read")
	require.Contains(t, errs, "rename it to .yaml")
	require.Contains(t, errs, "1 to mend.", "and nothing that follows from it")
}

// A folder that holds no trees has nothing right in it either.
func TestCheckOfAFolderWithoutTrees(t *testing.T) {
	folder := t.TempDir()
	code, out, errs := run(t, "", "check", "--trees", folder)
	require.Equal(t, ExitInput, code)
	require.Empty(t, out)
	require.Contains(t, errs, "there is no system in "+folder+": name the folder")
	gone := filepath.Join(folder, "nothere")
	code, _, errs = run(t, "", "check", "--trees", gone)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "the folder "+gone+" can't be read: no such file or directory")
}

// Who names a system to prove is told which trees it has.
func TestProveOfASystemNamesItsTrees(t *testing.T) {
	code, _, errs := run(t, "", "prove", "--trees", pumpTrees, "spray-pump")
	require.Equal(t, ExitUsage, code)
	require.Contains(t, errs, `there is no tree "spray-pump"; that is a system, and trees are proved: `)
	require.Contains(t, errs, "With --suspects it takes systems")
}
