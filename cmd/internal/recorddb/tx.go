package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"benchlead/diag/job"
)

// readOnly begins a transaction that takes no write lock.
var readOnly = &sql.TxOptions{ReadOnly: true}

// within runs do in one transaction: all of it is kept, or nothing. Errors come
// back translated, with what was being done. What is written to a file that nobody
// will find again is refused.
func (db *DB) within(ctx context.Context, opts *sql.TxOptions, doing string, do func(*sql.Tx) error) error {
	if opts != nil && opts.ReadOnly {
		return db.transact(ctx, opts, doing, do)
	}
	if err := db.there(); err != nil {
		return translate(ctx, doing, err)
	}
	if err := db.transact(ctx, opts, doing, do); err != nil {
		return err
	}
	// It may have gone meanwhile. If it comes back with this in it, whoever answers
	// again is shown what came in.
	return translate(ctx, doing, db.there())
}

// there says whether the file is still the one that has the record's name.
func (db *DB) there() error {
	if db.file == nil {
		return nil
	}
	now, err := os.Stat(db.path)
	switch {
	case err != nil:
		return fmt.Errorf("%w (%w)", job.ErrGone, err)
	case !os.SameFile(db.file, now):
		return fmt.Errorf("another file lies there now: %w", job.ErrGone)
	}
	return nil
}

func (db *DB) transact(ctx context.Context, opts *sql.TxOptions, doing string, do func(*sql.Tx) error) error {
	tx, err := db.sql.BeginTx(ctx, opts)
	if err != nil {
		return translate(ctx, doing, err)
	}
	if err := do(tx); err != nil {
		_ = tx.Rollback() // the first error is the one to tell
		return translate(ctx, doing, err)
	}
	return translate(ctx, doing, tx.Commit())
}

// each calls take for every row of a query.
func each(ctx context.Context, tx *sql.Tx, query string, args []any, take func(*sql.Rows) error) error {
	rows, err := tx.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	for rows.Next() {
		if err := take(rows); err != nil {
			return errors.Join(err, rows.Close())
		}
	}
	return errors.Join(rows.Err(), rows.Close())
}

// together is how many rows go into one statement. With five columns that is far
// below the 999 placeholders of older SQLite (sqlite.org, "Limits In SQLite").
const together = 50

// insertRows adds rows, all of the same length; query ends with "values".
func insertRows(ctx context.Context, tx *sql.Tx, query string, rows [][]any) error {
	for some := range slices.Chunk(rows, together) {
		var text strings.Builder
		text.WriteString(query)
		var args []any
		for i, row := range some {
			if i > 0 {
				text.WriteString(", ")
			}
			for k := range row {
				fmt.Fprintf(&text, "%c$%d", "(,"[min(k, 1)], len(args)+k+1)
			}
			text.WriteByte(')')
			args = append(args, row...)
		}
		if _, err := tx.ExecContext(ctx, text.String(), args...); err != nil {
			return err
		}
	}
	return nil
}
