package recorddb

import (
	"context"
	"database/sql"
)

// lacking is how many cards are missing.
func (db *DB) lacking(ctx context.Context) (n int, err error) {
	const missing = `select (select count(*) from jobs) - (select count(*) from cards)`
	return n, db.sql.QueryRowContext(ctx, missing).Scan(&n)
}

// refill writes the cards that are missing, all of them or none: in a record of
// before there were cards, and after a migration that took them away.
func (db *DB) refill(ctx context.Context) error {
	if n, err := db.lacking(ctx); err != nil || n == 0 {
		return err
	}
	return db.within(ctx, nil, "writing the cards of older jobs", func(tx *sql.Tx) error {
		const query = `select id from jobs where not exists (select 1 from cards where cards.job = jobs.id) order by id`
		var ids []int64
		err := each(ctx, tx, query, nil, func(rows *sql.Rows) error {
			var id int64
			err := rows.Scan(&id)
			ids = append(ids, id)
			return err
		})
		if err != nil {
			return err
		}
		for _, id := range ids {
			if err := recard(ctx, tx, id, true); err != nil {
				return err
			}
		}
		return nil
	})
}
