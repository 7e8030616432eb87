package recorddb

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"benchlead/diag/job"
)

// OpenToRead opens a record that is there to look at it. Where it can't be written -
// its rights, its disk, no space left - it is opened without changing a byte;
// ReadOnly says so. Errors are those of Open.
func OpenToRead(ctx context.Context, path string) (*DB, error) {
	if _, err := os.Stat(path); err != nil {
		return nil, translate(ctx, "opening it", err)
	}
	db, err := Open(ctx, path)
	if err == nil || !cantWrite(err) {
		return db, err
	}
	looked, whyNot := openReadOnly(ctx, path)
	switch {
	case errors.Is(whyNot, errOlder):
		return nil, whyNot
	case whyNot != nil:
		return nil, err // what keeps it from being written says more
	}
	return looked, nil
}

// ReadOnly says whether the record was opened only to look at it.
func (db *DB) ReadOnly() bool { return db.looked }

func cantWrite(err error) bool {
	return errors.Is(err, job.ErrReadOnly) || errors.Is(err, job.ErrFull) || errors.Is(err, job.ErrDisk)
}

var errOlder = errors.New("an older program wrote it, and it can't be brought up to date where it can't be written: copy it to another disk and name the copy with --record")

func openReadOnly(ctx context.Context, path string) (*DB, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	dsn := sourceAs("ro", abs, busy(waitForLock))
	// Without a log to take in, nothing is needed beside the file, and SQLite must not
	// look for it.
	if !hasLog(abs) {
		dsn += "&immutable=1"
	}
	handle, err := connect(dsn)
	if err != nil {
		return nil, err
	}
	db := &DB{sql: handle, path: abs, dsn: dsn, looked: true}
	err = lookInside(ctx, handle, len(steps()))
	if err == nil {
		err = db.whole(ctx)
	}
	if err == nil {
		err = db.prepare(ctx)
	}
	if err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return db, nil
}

// whole says whether nothing is to be done before the record can be read.
func (db *DB) whole(ctx context.Context) error {
	version, err := db.version(ctx)
	switch {
	case err != nil:
		return err
	case version == 0:
		return fmt.Errorf("there is nothing in it: %w", job.ErrDamaged)
	case version < len(steps()):
		return errOlder
	}
	lacks, err := db.lacking(ctx)
	if err == nil && lacks > 0 {
		err = errOlder
	}
	return err
}
