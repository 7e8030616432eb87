package recorddb

import (
	"context"
	"database/sql"
	"fmt"

	"benchlead/diag/job"
	"benchlead/diag/record"
)

// Create begins a job and gives it the next free number.
func (db *DB) Create(ctx context.Context, first []job.Event) (int64, error) {
	numbered, err := job.Number(0, false, first)
	if err != nil {
		return 0, err
	}
	var id int64
	err = db.within(ctx, nil, "beginning a job", func(tx *sql.Tx) error {
		const next = `insert into jobs (id) select coalesce(max(id), 0) + 1 from jobs returning id`
		if err := tx.QueryRowContext(ctx, next).Scan(&id); err != nil {
			return err
		}
		if err := insert(ctx, tx, id, numbered); err != nil {
			return err
		}
		return restock(ctx, tx, id, numbered)
	})
	return id, err
}

// Append adds events to a job, all of them or none, and returns once they are
// on the disk.
func (db *DB) Append(ctx context.Context, id, expected int64, events []job.Event) ([]job.Event, error) {
	var numbered []job.Event
	err := db.within(ctx, nil, fmt.Sprintf("adding to job %d", id), func(tx *sql.Tx) error {
		last, closed, err := ending(ctx, tx.StmtContext(ctx, db.ready[endsAt]), id)
		if err != nil {
			return err
		}
		if last != expected {
			return fmt.Errorf("it is at event %d now: %w", last, job.ErrConflict)
		}
		if numbered, err = job.Number(last, closed, events); err != nil {
			return err
		}
		if len(numbered) == 1 && record.Plain(numbered[0]) {
			return db.addPlain(ctx, tx, id, numbered[0])
		}
		if err := insert(ctx, tx, id, numbered); err != nil {
			return err
		}
		return restock(ctx, tx, id, numbered)
	})
	if err != nil {
		return nil, err
	}
	return numbered, nil
}

// ending says where a job's log ends, and whether the job was closed.
func ending(ctx context.Context, stmt *sql.Stmt, id int64) (last int64, closed bool, err error) {
	var seq sql.NullInt64
	var closings int
	err = stmt.QueryRowContext(ctx, id, string(job.KindClosed)).Scan(&seq, &closings)
	if err == nil && !seq.Valid {
		err = job.ErrNoJob
	}
	return seq.Int64, closings > 0, err
}

// insert adds events to a job, and brings its card up to date.
func insert(ctx context.Context, tx *sql.Tx, id int64, events []job.Event) error {
	if len(events) == 0 {
		return nil
	}
	if err := addEvents(ctx, tx, id, events); err != nil {
		return err
	}
	return carry(ctx, tx, id, events)
}

func addEvents(ctx context.Context, tx *sql.Tx, id int64, events []job.Event) error {
	rows := make([][]any, len(events))
	for i, e := range events {
		body, err := job.Encode(e)
		if err != nil {
			return err
		}
		rows[i] = []any{id, e.Seq, e.At, string(e.Kind), string(body)}
	}
	return insertRows(ctx, tx, `insert into events (job, seq, at, kind, body) values `, rows)
}

// Load returns all events of a job, by sequence number. A body that can't be
// read, or that disagrees with its place, is job.ErrDamaged.
func (db *DB) Load(ctx context.Context, id int64) ([]job.Event, error) {
	var events []job.Event
	err := db.within(ctx, readOnly, fmt.Sprintf("loading job %d", id), func(tx *sql.Tx) (err error) {
		events, err = load(ctx, tx, id)
		return err
	})
	if err == nil && len(events) == 0 {
		err = fmt.Errorf("job %d: %w", id, job.ErrNoJob)
	}
	if err != nil {
		return nil, err
	}
	return events, nil
}

func load(ctx context.Context, tx *sql.Tx, id int64) ([]job.Event, error) {
	const query = `select seq, body from events where job = $1 order by seq`
	var events []job.Event
	err := each(ctx, tx, query, []any{id}, func(rows *sql.Rows) error {
		e, err := scanEvent(rows, int64(len(events))+1)
		events = append(events, e)
		return err
	})
	return events, err
}

func scanEvent(rows *sql.Rows, want int64) (job.Event, error) {
	var seq int64
	var body string
	if err := rows.Scan(&seq, &body); err != nil {
		return job.Event{}, err
	}
	return placed(body, seq, want)
}

// placed is an event that has to be the one of that number.
func placed(body string, seq, want int64) (job.Event, error) {
	e, err := decode(body)
	if err == nil && (seq != want || e.Seq != want) {
		err = fmt.Errorf("event %d stands where event %d belongs: %w", seq, want, job.ErrDamaged)
	}
	return e, err
}

func decode(body string) (job.Event, error) {
	e, err := job.Decode([]byte(body))
	if err != nil {
		return job.Event{}, fmt.Errorf("%w (%w)", job.ErrDamaged, err)
	}
	return e, nil
}
