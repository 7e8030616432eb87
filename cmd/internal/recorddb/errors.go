package recorddb

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"syscall"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"benchlead/diag/job"
)

// primary cuts SQLite's extended result codes down to the plain ones.
const primary = 0xff

// codes says what each result code of SQLite means for a record
// (https://www.sqlite.org/rescode.html).
var codes = map[int]error{
	sqlite3.SQLITE_BUSY:     job.ErrLocked,
	sqlite3.SQLITE_LOCKED:   job.ErrLocked,
	sqlite3.SQLITE_PROTOCOL: job.ErrLocked, // lost the race for the write-ahead log's locks
	sqlite3.SQLITE_FULL:     job.ErrFull,
	sqlite3.SQLITE_READONLY: job.ErrReadOnly,
	sqlite3.SQLITE_PERM:     job.ErrReadOnly,
	sqlite3.SQLITE_CANTOPEN: job.ErrReadOnly,
	sqlite3.SQLITE_CORRUPT:  job.ErrDamaged,
	sqlite3.SQLITE_NOTADB:   job.ErrDamaged,
	sqlite3.SQLITE_IOERR:    job.ErrDisk,
	// The first thing that wants space when a record is opened.
	sqlite3.SQLITE_IOERR_SHMSIZE: job.ErrFull,
	// Two benches took the same number: the (job, seq) key decides.
	sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY: job.ErrConflict,
	sqlite3.SQLITE_CONSTRAINT_UNIQUE:     job.ErrConflict,
}

// translate is the only place that knows the driver's errors. It adds what was
// being done, and makes the error one of job's where it can. The context's own
// error comes first: the driver reports a call that was called off as an
// interruption.
func translate(ctx context.Context, doing string, err error) error {
	if err == nil {
		return nil
	}
	if ctx.Err() != nil {
		return fmt.Errorf("%s: %w", doing, ctx.Err())
	}
	if meaning := meaningOf(err); meaning != nil {
		return fmt.Errorf("%s: %w (%w)", doing, meaning, err)
	}
	return fmt.Errorf("%s: %w", doing, err)
}

func meaningOf(err error) error {
	var driver *sqlite.Error
	switch {
	case errors.As(err, &driver):
		if meaning, ok := codes[driver.Code()]; ok {
			return meaning
		}
		return codes[driver.Code()&primary]
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return job.ErrFull
	case errors.Is(err, syscall.EIO), errors.Is(err, syscall.ENODEV), errors.Is(err, syscall.ENXIO), errors.Is(err, syscall.ESTALE):
		return job.ErrDisk
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return job.ErrReadOnly
	}
	return nil
}
