package recorddb

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"benchlead/diag/job"
)

// waitForLock is how long a bench waits for another that is writing.
const waitForLock = 5 * time.Second

// DB is an open record. It is a job.Store, safe for many goroutines.
type DB struct {
	sql    *sql.DB
	path   string      // absolute
	dsn    string      // what another handle on the file is opened with
	file   fs.FileInfo // as it was opened; nil where nothing is written to it
	made   bool
	looked bool // opened only to look at it
	// ready are the statements of every answer, by their text: reading them anew each
	// time would take longer than what they do.
	ready map[string]*sql.Stmt
}

var _ job.Store = (*DB)(nil)

// Open opens the record in a file, which it makes, with its folder, when there
// is none: readable by its owner alone. It brings an older record up to date.
// Errors: job.ErrNewer, job.ErrDamaged (also for a file that is no record; it
// is left untouched), job.ErrLocked, job.ErrReadOnly, job.ErrFull, job.ErrDisk.
// Where a record is missing whose backups are still there none is begun: that is
// job.ErrDamaged too, or a week of new ones would push the old ones out.
func Open(ctx context.Context, path string) (*DB, error) {
	return open(ctx, path, waitForLock, steps())
}

// Made says whether there was no record before it was opened.
func (db *DB) Made() bool { return db.made }

// Close gives the file back. Nothing is lost when it is never called.
func (db *DB) Close() error { return db.sql.Close() }

func open(ctx context.Context, path string, wait time.Duration, steps []migration) (*DB, error) {
	const doing = "opening it"
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, translate(ctx, doing, err)
	}
	made, err := makeFile(abs)
	if err != nil {
		return nil, translate(ctx, doing, err)
	}
	if err := look(ctx, abs, wait, len(steps)); err != nil {
		return nil, translate(ctx, doing, err)
	}
	handle, err := connect(source(abs, pragmas(wait)...))
	if err != nil {
		return nil, translate(ctx, doing, err)
	}
	db := &DB{sql: handle, path: abs, dsn: source(abs, busy(waitForLock)), made: made}
	err = db.migrate(ctx, steps)
	if err == nil {
		err = db.refill(ctx)
	}
	if err == nil {
		err = db.prepare(ctx)
	}
	if err == nil {
		db.file, err = os.Stat(abs)
	}
	if err != nil {
		return nil, errors.Join(translate(ctx, doing, err), db.Close())
	}
	return db, nil
}

// makeFile makes the folder and an empty file where there is none, and says whether
// it did. Rights of what is there already are the shop's own business; a file that
// can't be written is refused before SQLite leaves files beside it, with rights that
// might keep out those who may write.
func makeFile(path string) (made bool, err error) {
	info, err := os.Stat(path)
	switch missing := errors.Is(err, fs.ErrNotExist); {
	case err == nil && !info.Mode().IsRegular():
		return false, errors.New("it is not a plain file: name the file that the record is in")
	case (missing || err == nil && info.Size() == 0) && !hasLog(path) && len(Backups(path)) > 0:
		return false, fmt.Errorf("there is nothing in it, though backups of a record lie beside it: %w", job.ErrDamaged)
	case err == nil:
		f, err := os.OpenFile(path, os.O_RDWR, 0)
		if err != nil {
			return false, err
		}
		return false, f.Close()
	case !missing:
		return false, err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return false, err
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	return true, f.Close()
}

// log is what SQLite calls its write-ahead log, behind the name of the record. A new
// record is in there alone until it is closed.
const log = "-wal"

func hasLog(path string) bool {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // SQLite keeps it beside the file itself
	}
	info, err := os.Stat(path + log)
	return err == nil && info.Size() > 0
}

// sqliteMagic begins every SQLite file (https://www.sqlite.org/fileformat.html,
// section 1.3).
const sqliteMagic = "SQLite format 3\x00"

// look refuses a file that is not ours before anything could be written to it.
func look(ctx context.Context, path string, wait time.Duration, newest int) error {
	begins, err := firstBytes(path, len(sqliteMagic))
	if err != nil {
		return err
	}
	if len(begins) > 0 && !bytes.Equal(begins, []byte(sqliteMagic)) {
		return fmt.Errorf("it is some other kind of file: %w", job.ErrDamaged)
	}
	handle, err := connect(source(path, busy(wait)))
	if err != nil {
		return err
	}
	return errors.Join(lookInside(ctx, handle, newest), handle.Close())
}

func lookInside(ctx context.Context, handle *sql.DB, newest int) error {
	var owner, version, tables int
	err := handle.QueryRowContext(ctx, `select
		(select application_id from pragma_application_id),
		(select user_version from pragma_user_version),
		(select count(*) from sqlite_master)`).Scan(&owner, &version, &tables)
	switch {
	case err != nil:
		return err
	case owner == appID && version > newest:
		return fmt.Errorf("its version is %d, this program knows %d: %w", version, newest, job.ErrNewer)
	case owner != appID && (owner != 0 || version != 0 || tables != 0):
		return fmt.Errorf("it belongs to some other program: %w", job.ErrDamaged)
	}
	return nil
}

func firstBytes(path string, n int) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	begins, err := io.ReadAll(io.LimitReader(f, int64(n)))
	return begins, errors.Join(err, f.Close())
}

// connect prepares a handle with one connection: SQLite has one writer anyway,
// and pragmas then hold for everything that is done.
func connect(dsn string) (*sql.DB, error) {
	handle, err := sql.Open("sqlite", dsn)
	if err != nil {
		return nil, err
	}
	handle.SetMaxOpenConns(1)
	return handle, nil
}

// pragmas are the settings of every connection.
func pragmas(wait time.Duration) []string {
	out := []string{
		busy(wait),          // first: the others may have to wait, too
		"journal_mode(wal)", // readers don't hold up a writer
		"synchronous(full)", // synced at each commit: acknowledged is durable
		"foreign_keys(1)",   // off unless asked for
	}
	if runtime.GOOS == "darwin" {
		out = append(out, "fullfsync(1)") // a plain fsync stops at the drive's cache there
	}
	return out
}

func busy(wait time.Duration) string {
	return fmt.Sprintf("busy_timeout(%d)", wait.Milliseconds())
}

// source is the driver's name for a file with its settings. The path is
// escaped: ? and # would end it, and % would be taken for an escape. A file that is
// not there is never made: where a stick was pulled out, a connection that is opened
// anew must fail.
func source(path string, pragmas ...string) string { return sourceAs("rw", path, pragmas...) }

// sourceAs is source for reading and writing, "rw", or for reading alone, "ro".
func sourceAs(mode, path string, pragmas ...string) string {
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // C:/... on Windows
	}
	query := url.Values{"_txlock": {"immediate"}, "_pragma": pragmas, "mode": {mode}}
	file := url.URL{Scheme: "file", Path: slashed, RawQuery: query.Encode()}
	return file.String()
}
