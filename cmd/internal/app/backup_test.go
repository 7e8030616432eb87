package app

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
)

func TestBackupAndBack(t *testing.T) {
	path := shopRecord(t)
	to := filepath.Join(t.TempDir(), "stick.db")
	code, out, errs := run(t, "", "--record", path, "backup", to)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "Written: "+to)
	code, _, errs = run(t, "", "--record", path, "backup", to)
	require.Equal(t, ExitInput, code, "no file is written over")
	require.Contains(t, errs, "there is such a file already")
	code, _, errs = run(t, "", "--record", path, "import", exportOfOther(t, t.TempDir()))
	require.Equal(t, ExitDone, code, errs)

	code, out, errs = run(t, "", "--record", path, "backup", "--restore", to)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "now holds the 3 jobs of "+to)
	require.Contains(t, out, "is kept as "+path+".replaced-")
	_, out, _ = run(t, "", "--record", path, "jobs")
	require.NotContains(t, out, "   4  ")
	code, _, errs = run(t, "", "--record", path, "backup", "--restore", path)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "the record itself")
	code, _, errs = run(t, "", "--record", filepath.Join(t.TempDir(), "none.db"), "backup")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "no record")
}

// Whatever opens the record first on a day backs it up; a damaged record names the
// newest backup, and the words that are said put it back.
func TestTheBackupOfTheDay(t *testing.T) {
	path := shopRecord(t)
	require.Empty(t, recorddb.Backups(path))
	code, _, errs := run(t, "", "--record", path, "jobs")
	require.Equal(t, ExitDone, code, errs)
	backups := recorddb.Backups(path)
	require.Len(t, backups, 1)

	require.NoError(t, os.WriteFile(path, []byte("dear customer"), 0o600))
	code, _, errs = run(t, "", "--record", path, "jobs")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "The newest backup is of "+recorddb.DayOf(backups[0]))
	require.Contains(t, errs, "\n  benchlead backup --restore --record "+path+"\n")
	code, out, errs := run(t, "", "--record", path, "backup", "--restore")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "now holds the 3 jobs of "+backups[0])
	require.Contains(t, out, "What else was done after that backup is not in the record.")
	_, out, _ = run(t, "", "--record", path, "jobs")
	require.Contains(t, out, "Orange tiller")
	code, _, errs = run(t, "", "--record", path, "backup", "--restore")
	require.Equal(t, ExitInput, code, "it is sound now")
	require.Contains(t, errs, "is sound and was left as it is")
}
