package app

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/source"
)

// ofRecord names the record in its errors.
func (p *program) ofRecord(err error) error {
	if p.demo {
		return err
	}
	return fmt.Errorf("the record %s: %w", p.recordPath(), err)
}

// folderThere refuses to make the folder of a record that was named: where a stick is
// not plugged in, it would be made on another disk.
func (p *program) folderThere() error {
	if p.record == "" && p.env("BENCHLEAD_RECORD") == "" {
		return nil
	}
	folder := filepath.Dir(p.recordPath())
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no folder %s for the record: plug in the stick or drive that it is on, make the folder, or name another record with --record", folder)
	}
	return nil // whoever opens it says what else is wrong
}

// tellOpened says what nobody should find out later: that the record is a new one, or
// that it can only be looked at.
func (p *program) tellOpened(db *recorddb.DB) {
	says := ""
	switch {
	case db.Made():
		says = "no jobs: there was no record at %s, a new one was begun"
	case db.ReadOnly():
		says = "the record %s can't be written here; it can only be looked at"
	default:
		return
	}
	fmt.Fprintf(p.streams.Err, "benchlead: "+says+"\n", source.CleanLine(p.recordPath()))
}

// wayOut is what can still be done with a record in trouble, in a sentence or two; ""
// when the error has nothing to do with that.
func (p *program) wayOut(err error) string {
	switch {
	case p.demo:
		return ""
	case errors.Is(err, job.ErrDamaged):
		return p.goBack()
	case errors.Is(err, job.ErrReadOnly), errors.Is(err, job.ErrFull):
		f, err := os.Open(p.recordPath())
		if err != nil {
			return ""
		}
		_ = f.Close()
		return "Looking still works: \"benchlead jobs\", \"benchlead report JOB\", and\n\"benchlead backup FILE\" with a file on another disk."
	}
	return ""
}

// goBack says how to go back to the newest backup.
func (p *program) goBack() string {
	backups := recorddb.Backups(p.recordPath())
	if len(backups) == 0 {
		return "There is no backup beside it. \"benchlead backup --restore FILE\" takes one from elsewhere."
	}
	command := "benchlead backup --restore"
	if p.record != "" {
		command += " --record " + shellWord(p.record)
	}
	return fmt.Sprintf("The newest backup is of %s. To go back to it, with no bench open:\n  %s\n"+
		"What was there is kept under another name, and what is newer in it is taken\nalong as far as it can be read.", recorddb.DayOf(backups[0]), command)
}

// shellWord is a name as a shell takes it for one word.
func shellWord(name string) string {
	if strings.Trim(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/._-:\\") == "" {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
