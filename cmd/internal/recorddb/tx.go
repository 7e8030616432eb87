package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// readOnly begins a transaction that takes no write lock.
var readOnly = &sql.TxOptions{ReadOnly: true}

// within runs do in one transaction: all of it is kept, or nothing. Errors come
// back translated, with what was being done.
func (db *DB) within(ctx context.Context, opts *sql.TxOptions, doing string, do func(*sql.Tx) error) error {
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
