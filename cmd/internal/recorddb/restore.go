package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"benchlead/diag/job"
	"benchlead/diag/record"
)

// replaced stands behind the name of a record that a backup took the place of, and
// the day behind that.
const replaced = ".replaced-"

// Restored is what a restore did.
type Restored struct {
	Jobs  int      // in the record that is there now
	Kept  string   // the name of the record that was there; "" when there was none
	Saved []Rescue // what was newer in a damaged one, by job
	// Damaged: the record that was there could not be read whole.
	Damaged bool
}

// Restore puts a backup in the place of the record in a file, which is kept under
// another name with the day, "2006-01-02". A backup that is damaged, of a newer
// program or no record is refused (job.ErrDamaged, job.ErrNewer), as is doing so
// while some other program has the record open (job.ErrLocked); then nothing is
// changed. The backup itself stays as it is. Out of a damaged record comes along what
// is newer in it and can still be read.
func Restore(ctx context.Context, backup, path, day string) (Restored, error) {
	doing := fmt.Sprintf("restoring the record from %q", backup)
	path, err := filepath.Abs(path)
	if err != nil {
		return Restored{}, translate(ctx, doing, err)
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // the file itself gives way, not what points to it
	}
	part, jobs, err := soundCopy(ctx, backup, path)
	if err != nil {
		return Restored{}, translate(ctx, doing, err)
	}
	saved, damaged, err := rescue(ctx, path, part)
	var kept string
	if err == nil {
		kept, err = replace(ctx, part, path, day)
	}
	if err != nil {
		return Restored{}, translate(ctx, doing, errors.Join(err, os.Remove(part)))
	}
	done := Restored{Jobs: jobs, Kept: kept, Saved: saved, Damaged: damaged}
	done.Jobs += done.Begun()
	return done, nil
}

// Sound says what is wrong with a record, all of which is read for it: job.ErrDamaged
// when something is.
func Sound(ctx context.Context, path string) error {
	const doing = "reading it through"
	path, err := filepath.Abs(path)
	if err != nil {
		return translate(ctx, doing, err)
	}
	if err := look(ctx, path, waitForLock, len(steps())); err != nil {
		return translate(ctx, doing, err)
	}
	handle, err := connect(source(path, busy(waitForLock)))
	if err != nil {
		return translate(ctx, doing, err)
	}
	_, err = sound(ctx, handle)
	return translate(ctx, doing, errors.Join(err, handle.Close()))
}

// soundCopy copies a backup beside the record when all of it can be read.
func soundCopy(ctx context.Context, backup, path string) (part string, jobs int, err error) {
	its, err := os.Stat(backup)
	if err != nil {
		return "", 0, err
	}
	if now, err := os.Stat(path); err == nil && os.SameFile(its, now) {
		return "", 0, errors.New("it is the record itself; name a backup of it")
	}
	if backup, err = filepath.Abs(backup); err != nil {
		return "", 0, err
	}
	if err := look(ctx, backup, waitForLock, len(steps())); err != nil {
		return "", 0, err
	}
	handle, err := connect(source(backup, busy(waitForLock)))
	if err != nil {
		return "", 0, err
	}
	if jobs, err = sound(ctx, handle); err == nil {
		err = os.MkdirAll(filepath.Dir(path), 0o700)
	}
	if err == nil {
		part, err = copyBeside(ctx, handle, path)
	}
	return part, jobs, errors.Join(err, handle.Close())
}

// sound says how many jobs a file holds; it is damaged when not every event of them
// can be read.
func sound(ctx context.Context, handle *sql.DB) (jobs int, err error) {
	var owner, version int
	err = handle.QueryRowContext(ctx, `select (select application_id from pragma_application_id), (select user_version from pragma_user_version)`).Scan(&owner, &version)
	if err == nil && (owner != appID || version == 0) {
		err = fmt.Errorf("it holds no record: %w", job.ErrDamaged)
	}
	var says string
	if err == nil {
		err = handle.QueryRowContext(ctx, `pragma integrity_check(1)`).Scan(&says)
	}
	if err == nil && says != "ok" {
		err = fmt.Errorf("%s: %w", says, job.ErrDamaged)
	}
	if err != nil {
		return 0, err
	}
	db := &DB{sql: handle}
	err = db.Each(ctx, func(record.Log) error { jobs++; return nil })
	return jobs, err
}

// replace puts a file in the place of the record, and keeps what was there.
func replace(ctx context.Context, part, path, day string) (kept string, err error) {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return "", errors.Join(os.Rename(part, path), syncFolder(filepath.Dir(path)))
	}
	if err := shut(ctx, path); err != nil {
		return "", err
	}
	kept = free(path + replaced + day)
	// A second name first, so that there is a record at every moment; where a file
	// can't have two, it is moved.
	if err := os.Link(path, kept); err != nil {
		if err := os.Rename(path, kept); err != nil {
			return "", err
		}
	}
	// What belongs to the old file must not be taken for the new one's.
	err = moveBeside(path, kept)
	if err == nil {
		err = os.Rename(part, path)
	}
	if err != nil {
		return "", errors.Join(err, putBack(kept, path))
	}
	return kept, syncFolder(filepath.Dir(path))
}

// moveBeside has what SQLite keeps beside one file follow it to another name.
func moveBeside(from, to string) error {
	for _, its := range []string{"-wal", "-shm"} {
		if err := os.Rename(from+its, to+its); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// putBack gives the record that was there its name again, and only that one.
func putBack(kept, path string) error {
	if err := os.Rename(kept, path); err != nil {
		return err
	}
	err := os.Remove(kept) // a file that has both names keeps them when it is renamed
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return errors.Join(err, moveBeside(kept, path))
}

// shut takes a record into one file, which only works when nobody else has it
// open. One that is too damaged for that is left as it is.
func shut(ctx context.Context, path string) error {
	err := look(ctx, path, waitForLock, len(steps()))
	if errors.Is(meaning(err), job.ErrDamaged) {
		return nil
	}
	if err != nil && !errors.Is(err, job.ErrNewer) {
		return err
	}
	handle, err := connect(source(path, busy(0)))
	if err != nil {
		return err
	}
	var mode string
	err = handle.QueryRowContext(ctx, `pragma journal_mode = delete`).Scan(&mode)
	if errors.Is(meaning(err), job.ErrDamaged) {
		err = nil
	} else if err == nil && mode != "delete" {
		err = fmt.Errorf("it is still open: %w", job.ErrLocked)
	}
	return errors.Join(err, handle.Close())
}

// meaning is an error as job names it; itself when job has no name for it.
func meaning(err error) error {
	if of := meaningOf(err); of != nil {
		return of
	}
	return err
}
