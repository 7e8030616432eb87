package recorddb

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"benchlead/diag/job"
)

// Rescue is what came of one job out of a damaged record.
type Rescue struct {
	Job    int64
	Events int  // more than the backup has
	New    bool // the backup does not have the job at all
}

// Begun is how many jobs are there that the backup did not have.
func (d Restored) Begun() (n int) {
	for _, r := range d.Saved {
		if r.New {
			n++
		}
	}
	return n
}

// rescue adds to a copy of a backup what a damaged record has beyond it, as far as
// each job can be read without a gap. From a sound record nothing is taken: whoever
// goes back then wants to. It is done on a copy of the damaged one.
func rescue(ctx context.Context, damaged, part string) (saved []Rescue, isDamaged bool, err error) {
	if err := Sound(ctx, damaged); !errors.Is(err, job.ErrDamaged) {
		return nil, false, ctx.Err()
	}
	wreck, away, err := openWreck(ctx, damaged, part)
	if err != nil {
		return nil, true, ctx.Err() // what can't even be copied holds nothing to save
	}
	defer away()
	handle, err := connect(source(part, pragmas(waitForLock)...))
	if err != nil {
		return nil, true, err
	}
	db := &DB{sql: handle, path: part}
	saved, err = db.takeFrom(ctx, wreck)
	// One file again, which is all that is put in the record's place.
	_, mode := handle.ExecContext(ctx, "pragma journal_mode = delete")
	return saved, true, errors.Join(err, mode, handle.Close())
}

// openWreck opens a copy of a damaged record in whatever way lets some of it be read.
func openWreck(ctx context.Context, damaged, part string) (wreck *sql.DB, away func(), err error) {
	// Called like what a copy leaves that is broken off, so that it is found then.
	folder := strings.TrimSuffix(part, unused) + "-wreck" + unused
	if err := os.Mkdir(folder, 0o700); err != nil {
		return nil, nil, err
	}
	copied := filepath.Join(folder, "record")
	if err = copyFile(damaged, copied); err == nil {
		err = copyFile(damaged+log, copied+log)
		if errors.Is(err, fs.ErrNotExist) {
			err = nil
		}
	}
	if err == nil {
		err = newHead(copied, part)
	}
	if err == nil {
		// So that a file which is shorter than it should be is read as far as it goes.
		wreck, err = connect(source(copied, "writable_schema(1)"))
	}
	if err != nil {
		return nil, nil, errors.Join(err, os.RemoveAll(folder))
	}
	return wreck, func() { _ = wreck.Close(); _ = os.RemoveAll(folder) }, ctx.Err()
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// headSize is the length of what begins every SQLite file, before its first table
// (https://www.sqlite.org/fileformat.html, section 1.3).
const headSize = 100

// newHead gives a copy whose first bytes are lost those of another record, which are
// the same but for counts. Three of them would be wrong here, and are set so that
// SQLite doesn't go by them: the size in pages, and the list of free pages.
func newHead(copied, sound string) error {
	begins, err := firstBytes(copied, len(sqliteMagic))
	if err != nil || string(begins) == sqliteMagic {
		return err
	}
	head, err := firstBytes(sound, headSize)
	if err != nil || len(head) < headSize {
		return errors.Join(err, io.ErrUnexpectedEOF)
	}
	clear(head[28:32]) // size in pages
	clear(head[32:40]) // free pages
	clear(head[92:96]) // for which change the size is true
	f, err := os.OpenFile(copied, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(head, 0)
	return errors.Join(err, f.Close())
}

// takeFrom adds, job by job, what a wreck has beyond this record. A job that does not
// fit is left as the backup has it.
func (db *DB) takeFrom(ctx context.Context, wreck *sql.DB) ([]Rescue, error) {
	if version, err := db.version(ctx); err != nil || version < len(steps()) {
		return nil, err // of an older program: its tables are not those known here
	}
	here, err := db.ends(ctx)
	if err != nil {
		return nil, err
	}
	more := map[int64][]job.Event{}
	for _, id := range numbers(here) {
		if events := beyond(ctx, wreck, id, here[id]); len(events) > 0 {
			more[id] = events
		}
	}
	var saved []Rescue
	// Twice: a job may want a piece of the parts bin that another one puts in.
	for _, cut := range []bool{false, true} {
		for _, id := range slices.Sorted(maps.Keys(more)) {
			n, err := db.rejoin(ctx, id, here[id], more[id], cut)
			if err != nil {
				return nil, err
			}
			if n > 0 {
				saved = append(saved, Rescue{id, n, here[id] == 0})
				delete(more, id)
			}
		}
	}
	slices.SortFunc(saved, func(a, b Rescue) int { return cmp.Compare(a.Job, b.Job) })
	return saved, nil
}

// rejoin adds events to a job, and says how many: all, or none when they don't fit.
// With cut it is as many as do, up to one that moves a piece of the parts bin.
func (db *DB) rejoin(ctx context.Context, id, last int64, events []job.Event, cut bool) (int, error) {
	for len(events) > 0 {
		err := db.within(ctx, nil, "taking it along", func(tx *sql.Tx) error { return rejoin(ctx, tx, id, last, events) })
		switch {
		case err == nil:
			return len(events), nil
		case ctx.Err() != nil || errors.Is(err, job.ErrFull) || errors.Is(err, job.ErrDisk):
			return 0, err
		case !cut:
			return 0, nil
		}
		events = events[:max(lastMove(events), 0)]
	}
	return 0, nil
}

// lastMove is where the last event stands that moves a piece; -1 for none.
func lastMove(events []job.Event) int {
	for i, e := range slices.Backward(events) {
		if e.Drawn != nil || e.Binned != nil || e.Undone != nil {
			return i
		}
	}
	return -1
}

// ends are the last events of all jobs.
func (db *DB) ends(ctx context.Context) (map[int64]int64, error) {
	out := map[int64]int64{}
	err := db.within(ctx, readOnly, "reading the jobs", func(tx *sql.Tx) error {
		return each(ctx, tx, `select job, max(seq) from events group by job`, nil, func(rows *sql.Rows) error {
			var id, last int64
			err := rows.Scan(&id, &last)
			out[id] = last
			return err
		})
	})
	return out, err
}

// guess is how many jobs beyond the last one of the backup are asked for. A wreck is not
// asked which it has: what it says of that may be what is wrong with it. Judgement: more
// than a shop takes in in a year.
const guess = 5000

// numbers are those of the jobs that a wreck may have.
func numbers(here map[int64]int64) []int64 {
	last := int64(0)
	for id := range here {
		last = max(last, id)
	}
	var out []int64
	for id := int64(1); id <= last+guess; id++ {
		out = append(out, id)
	}
	return out
}

// beyond are the events of a job behind the last one known, up to the first that
// can't be read.
func beyond(ctx context.Context, wreck *sql.DB, id, last int64) []job.Event {
	rows, err := wreck.QueryContext(ctx, `select seq, body from events where job = $1 and seq > $2 order by seq`, id, last)
	if err != nil {
		return nil
	}
	defer rows.Close()
	var out []job.Event
	for rows.Next() {
		e, err := scanEvent(rows, last+int64(len(out))+1)
		if err != nil || e.Check() != nil {
			break
		}
		out = append(out, e)
	}
	return out
}

// rejoin adds events to a job, which is a new one when nothing of it is known.
func rejoin(ctx context.Context, tx *sql.Tx, id, last int64, events []job.Event) error {
	known, err := load(ctx, tx, id)
	if err != nil {
		return err
	}
	if _, err := job.Fold(append(known, events...)); err != nil {
		return err
	}
	if last == 0 {
		if _, err := tx.ExecContext(ctx, `insert into jobs (id) values ($1)`, id); err != nil {
			return err
		}
	}
	if err := insert(ctx, tx, id, events); err != nil {
		return err
	}
	return restock(ctx, tx, id, events)
}
