package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Daily is how many of the backups that the program makes by itself, one a day,
// are kept. Judgement: a week is enough to notice that something is wrong.
const Daily = 7

const (
	itself = ".backup-"   // and the day, or the version: made by the program itself
	byHand = ".copy-"     // and the day: asked for
	unused = ".part"      // of a copy that is not whole yet
	dated  = "2006-01-02" // how a day is written
)

// backup writes a copy of the record beside it, named by the version it has.
func (db *DB) backup(ctx context.Context, version int) error {
	return copyTo(ctx, db.sql, fmt.Sprintf("%s%s%d", db.path, itself, version))
}

// Backup writes a copy of the record, as it stands at one moment, while others may
// go on writing. to is the file, which must not be there yet; "" is one beside the
// record, named by the day, "2006-01-02". It appears under its name only when it is
// whole and on the disk; the name is returned.
func (db *DB) Backup(ctx context.Context, to, day string) (name string, err error) {
	if to == "" {
		to = free(db.path + byHand + day)
	}
	doing := fmt.Sprintf("backing the record up to %q", to)
	if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
		if err == nil {
			err = fmt.Errorf("there is such a file already: %w", fs.ErrExist)
		}
		return "", translate(ctx, doing, err)
	}
	handle, err := connect(db.dsn)
	if err != nil {
		return "", translate(ctx, doing, err)
	}
	return to, translate(ctx, doing, errors.Join(copyTo(ctx, handle, to), handle.Close()))
}

// free is a name that no file has: the name itself, or with -2, -3 ... behind it.
// One that can't be looked at is free too: whoever writes it is told why.
func free(name string) string {
	out := name
	for n := 2; ; n++ {
		if _, err := os.Lstat(out); err != nil {
			return out
		}
		out = fmt.Sprintf("%s-%d", name, n)
	}
}

// BackupDaily makes the backup of a day, "2006-01-02", unless there is one, and
// takes away those that are too many. An empty record is not backed up. name is ""
// when none was made.
func (db *DB) BackupDaily(ctx context.Context, day string) (name string, err error) {
	const doing = "making the backup of the day"
	to := db.path + itself + day
	if _, err := os.Lstat(to); err == nil {
		return "", nil
	}
	handle, err := connect(db.dsn)
	if err != nil {
		return "", translate(ctx, doing, err)
	}
	defer handle.Close()
	var jobs int
	if err := handle.QueryRowContext(ctx, `select count(*) from jobs`).Scan(&jobs); err != nil || jobs == 0 {
		return "", translate(ctx, doing, err)
	}
	if err := copyTo(ctx, handle, to); err != nil {
		return "", translate(ctx, doing, err)
	}
	thin(db.path, to)
	return to, nil
}

// Backups are the backups of days beside a record, the newest first.
func Backups(path string) []string {
	out := beside(path, func(rest string) bool {
		day, ok := strings.CutPrefix(rest, itself)
		_, err := time.Parse(dated, day)
		return ok && err == nil
	})
	slices.Reverse(out) // their names are in the order of their days
	return out
}

// thin takes the oldest backups of days away, and what copies left that were broken
// off. The one just made stays, whatever the clock says.
func thin(path, made string) {
	kept := 1
	for _, old := range Backups(path) {
		switch {
		case old == made:
		case kept < Daily:
			kept++
		default:
			_ = os.Remove(old) // one too many is no harm
		}
	}
	for _, part := range beside(path, func(rest string) bool { return strings.HasSuffix(rest, unused) }) {
		if info, err := os.Stat(part); err == nil && time.Since(info.ModTime()) > 24*time.Hour {
			_ = os.RemoveAll(part) // a restore leaves a folder
		}
	}
}

// beside are the files that are called like the record, with something behind that
// fits, by name.
func beside(path string, fits func(rest string) bool) []string {
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if rest, ok := strings.CutPrefix(e.Name(), filepath.Base(path)); ok && fits(rest) {
			out = append(out, filepath.Join(filepath.Dir(path), e.Name()))
		}
	}
	return out
}

// copyTo writes a copy of a record under a name, over what may be there.
func copyTo(ctx context.Context, handle *sql.DB, to string) error {
	part, err := copyBeside(ctx, handle, to)
	if err != nil {
		return err
	}
	if err := os.Rename(part, to); err != nil {
		return errors.Join(err, os.Remove(part))
	}
	return syncFolder(filepath.Dir(to))
}

// copyBeside writes a whole copy of a record, on the disk, to a file of its own
// beside the name it is meant for. Only its owner can read it.
func copyBeside(ctx context.Context, handle *sql.DB, to string) (part string, err error) {
	f, err := os.CreateTemp(filepath.Dir(to), filepath.Base(to)+".*"+unused)
	if err != nil {
		return "", err
	}
	part = f.Name()
	err = f.Close()
	if err == nil {
		_, err = handle.ExecContext(ctx, "vacuum into $1", part)
	}
	if err == nil {
		err = sync(part)
	}
	if err != nil {
		return "", errors.Join(err, os.Remove(part))
	}
	return part, nil
}

func sync(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// DayOf is the day of one of Backups, "2006-01-02".
func DayOf(backup string) string {
	_, day, _ := strings.Cut(filepath.Base(backup), itself)
	return day
}
