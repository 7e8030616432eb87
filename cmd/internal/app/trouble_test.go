package app

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
)

// A record whose file is gone is not begun anew while its backups lie there, by any
// verb; the words that are said bring it back.
func TestALostRecordIsNotBegunAnew(t *testing.T) {
	path := shopRecord(t)
	code, _, errs := run(t, "", "--record", path, "jobs") // makes the backup of the day
	require.Equal(t, ExitDone, code, errs)
	require.NoError(t, os.Remove(path))
	for _, verb := range [][]string{{"jobs"}, {"walk"}, {"report", "1"}, {"bin", "add", "x"}} {
		code, _, errs := run(t, "", append([]string{"--record", path, "--trees", pumpTrees}, verb...)...)
		require.Equal(t, ExitInput, code, verb)
		require.Contains(t, errs, "benchlead backup --restore --record "+path, verb)
		require.NoFileExists(t, path)
	}
	code, out, errs := run(t, "", "--record", path, "backup", "--restore")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "3 jobs")
	require.NotContains(t, out, "kept as", "there was none")
}

// The newest backup may be damaged, too.
func TestTheNewestSoundBackupIsTaken(t *testing.T) {
	path := shopRecord(t)
	code, _, errs := run(t, "", "--record", path, "backup", path+".backup-2026-01-05")
	require.Equal(t, ExitDone, code, errs)
	for _, backup := range recorddb.Backups(path)[:1] { // of today
		require.NoError(t, os.WriteFile(backup, []byte("dear"), 0o600))
	}
	require.NoError(t, os.WriteFile(path, []byte("dear"), 0o600))
	code, out, errs := run(t, "", "--record", path, "backup", "--restore")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, errs, "is damaged, too")
	require.Contains(t, out, "3 jobs of "+path+".backup-2026-01-05")

	for _, backup := range recorddb.Backups(path) {
		require.NoError(t, os.WriteFile(backup, []byte("dear"), 0o600))
	}
	require.NoError(t, os.WriteFile(path, []byte("dear"), 0o600))
	code, _, errs = run(t, "", "--record", path, "backup", "--restore")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "nothing was changed")
	code, _, errs = run(t, "", "--record", path, "backup", "--restore", path+".backup-2026-01-05")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "is no sound backup")
}

func TestANewRecordIsSaid(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.db")
	code, _, errs := run(t, "", "--record", path, "--trees", pumpTrees, "walk")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, errs, "there was no record at "+path+", a new one was begun")
	_, _, errs = run(t, "", "--record", path, "--trees", pumpTrees, "walk")
	require.NotContains(t, errs, "a new one")
}

// The folder of a record that was named is not made: the stick may not be plugged in.
func TestTheFolderOfARecordIsNotMade(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "stick")
	for _, verb := range []string{"walk", "jobs", "backup"} {
		code, _, errs := run(t, "", "--record", filepath.Join(folder, "record.db"), "--trees", pumpTrees, verb)
		require.Equal(t, ExitInput, code)
		require.Contains(t, errs, "plug in the stick")
		require.NoDirExists(t, folder)
	}
}

// Prices are not taken for missing where the record can't be read.
func TestARecordInTroubleIsNotOneWithoutPrices(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.db")
	require.NoError(t, os.WriteFile(path, []byte("dear customer"), 0o600))
	for _, args := range [][]string{{"prices"}, {"judge", caseFile("made-healthy-ground-030")}, {"prices", "export"}} {
		code, out, errs := run(t, "", append([]string{"--record", path, "--trees", pumpTrees}, args...)...)
		require.Equal(t, ExitInput, code, args)
		require.Contains(t, errs, "not a sound record", args)
		require.Empty(t, out)
	}
	under := filepath.Join(path, "record.db") // below a file: no "not there", but an error
	code, _, _ := run(t, "", "--record", under, "--trees", pumpTrees, "prices")
	require.Equal(t, ExitInput, code)
}

// Files that belong together come together: when one can't have its name, those that
// had theirs give it back.
func TestFilesAreReplacedTogether(t *testing.T) {
	folder := t.TempDir()
	named := func(name string) string { return filepath.Join(folder, name) }
	require.NoError(t, os.WriteFile(named("findings"), []byte("old"), 0o600))
	var parts []*os.File
	for _, name := range []string{"findings", "jobs", "readings"} {
		part, err := os.Create(named(name + ".part"))
		require.NoError(t, err)
		_, err = part.WriteString("new")
		require.NoError(t, err)
		require.NoError(t, part.Close())
		parts = append(parts, part)
	}
	all := []string{named("findings"), named("jobs"), named("readings")}
	require.NoError(t, os.Mkdir(all[2], 0o700))
	require.ErrorContains(t, bring(parts, all), "is a folder")
	old, err := os.ReadFile(all[0])
	require.NoError(t, err)
	require.Equal(t, "old", string(old))
	require.NoFileExists(t, all[1])

	require.NoError(t, os.WriteFile(parts[0].Name(), []byte("new"), 0o600))
	require.NoError(t, os.WriteFile(parts[1].Name(), []byte("new"), 0o600))
	require.NoError(t, os.Remove(all[2]))
	require.NoError(t, bring(parts, all))
	for _, name := range all {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, "new", string(text))
	}
	require.Equal(t, []string{"findings", "jobs", "readings"}, inFolder(t, folder))
}

func inFolder(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// A clock that is wrong, also between two answers, loses nothing and turns nothing
// round: entries stand in the order in which they came.
func TestAClockThatGoesBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.db")
	now := time.Date(2026, 11, 3, 9, 0, 0, 0, time.UTC).UnixMicro()
	at := func(back time.Duration, in string, args ...string) string {
		var out, errs bytes.Buffer
		p := &program{env: testEnv(path), streams: Streams{In: strings.NewReader(in), Out: &out, Err: &errs}}
		p.now = func() int64 { now += 60_000_000; return now - back.Microseconds() }
		root := p.root()
		root.SetArgs(append([]string{"--record", path, "--trees", pumpTrees, "--prices", pumpPrices}, args...))
		require.Zero(t, p.status(root.ExecuteContext(context.Background())), errs.String())
		return out.String()
	}
	since1970 := time.Duration(now) * time.Microsecond
	intake := strings.Join(intakeLines, "\n") + "\n"
	at(0, intake+"rest 12.6\nnote today\n", "walk")
	at(24*time.Hour, "note yesterday\n", "walk", "1")
	at(since1970, "note 1970\n", "walk", "1")
	at(0, "note again\n", "walk", "1")
	at(since1970, intake, "walk")

	report := at(0, "", "report", "1")
	last := -1
	for _, note := range []string{"- today", "- yesterday", "- 1970", "- again"} {
		spot := strings.Index(report, note)
		require.Greater(t, spot, last, "%s\n%s", note, report)
		last = spot
	}
	require.NotRegexp(t, `-\d+ (min|s)\b`, report)
	list := at(since1970, "", "jobs")
	require.Contains(t, list, "Open, last worked on 2026-11-03.\n2. ")
	require.Contains(t, list, "Open, last worked on 1970-01-01.\n")
	require.NotRegexp(t, `\s-\d`, at(0, "", "counts"))
	require.GreaterOrEqual(t, len(recorddb.Backups(path)), 3, "one of each day")
}
