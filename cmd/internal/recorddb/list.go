package recorddb

import (
	"context"
	"database/sql"
	"fmt"

	"benchlead/diag/job"
	"benchlead/diag/record"
)

// Jobs lists all jobs by number.
func (db *DB) Jobs(ctx context.Context) ([]job.Summary, error) {
	return db.summaries(ctx, "order by job")
}

// Newest lists all open jobs and the newest closed ones up to most, the newest
// first, and says how many older ones there are. Newest is what has the highest
// number: a clock may be wrong.
func (db *DB) Newest(ctx context.Context, most int) (jobs []job.Summary, older int, err error) {
	open, err := db.summaries(ctx, "where outcome = '' order by job desc")
	if err != nil {
		return nil, 0, err
	}
	closed, err := db.summaries(ctx, "where outcome <> '' order by job desc limit $1", most)
	if err != nil {
		return nil, 0, err
	}
	var all int
	err = db.within(ctx, readOnly, "counting the jobs", func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `select count(*) from cards`).Scan(&all)
	})
	jobs = append(open, closed...)
	return jobs, max(all-len(jobs), 0), err
}

// summaries are the summaries of the cards that the rest of a query picks.
func (db *DB) summaries(ctx context.Context, rest string, args ...any) ([]job.Summary, error) {
	const query = `select job, machine, system, complaint, words, opened, last, outcome, found from cards `
	var out []job.Summary
	err := db.within(ctx, readOnly, "listing the jobs", func(tx *sql.Tx) error {
		return each(ctx, tx, query+rest, args, func(rows *sql.Rows) error {
			s, err := scanSummary(rows)
			out = append(out, s)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

func scanSummary(rows *sql.Rows) (job.Summary, error) {
	var s job.Summary
	var outcome, found string
	err := rows.Scan(&s.ID, &s.Machine, &s.System, &s.Complaint, &s.Words, &s.OpenedAt, &s.LastAt, &outcome, &found)
	if err != nil {
		return s, err
	}
	s.Outcome, s.Open = job.Outcome(outcome), outcome == ""
	s.Found, err = unlist(found)
	return s, err
}

// Cards gives the card of every job by number, its marks left out. take must not
// use the record.
func (db *DB) Cards(ctx context.Context, take func(record.Card) error) error {
	return db.within(ctx, readOnly, "reading all cards", func(tx *sql.Tx) error {
		return each(ctx, tx, "select "+cardColumns+" from cards order by job", nil, func(rows *sql.Rows) error {
			c, err := scanCard(rows)
			if err != nil {
				return err
			}
			return take(c)
		})
	})
}

// Each gives every job with all its events by number, all as they stood at one
// moment. take must not use the record.
func (db *DB) Each(ctx context.Context, take func(record.Log) error) error {
	return db.within(ctx, readOnly, "reading all jobs", func(tx *sql.Tx) error { return eachLog(ctx, tx, take) })
}

func eachLog(ctx context.Context, tx *sql.Tx, take func(record.Log) error) error {
	var log record.Log
	const query = `select job, seq, body from events order by job, seq`
	err := each(ctx, tx, query, nil, func(rows *sql.Rows) error {
		var id, seq int64
		var body string
		if err := rows.Scan(&id, &seq, &body); err != nil {
			return err
		}
		if id != log.Job {
			if err := given(log, take); err != nil {
				return err
			}
			log = record.Log{Job: id}
		}
		e, err := placed(body, seq, int64(len(log.Events))+1)
		if err != nil {
			return fmt.Errorf("job %d: %w", id, err)
		}
		log.Events = append(log.Events, e)
		return nil
	})
	if err != nil {
		return err
	}
	return given(log, take)
}

func given(log record.Log, take func(record.Log) error) error {
	if log.Job == 0 {
		return nil
	}
	return take(log)
}
