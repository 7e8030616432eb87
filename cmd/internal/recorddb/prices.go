package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

const priceColumns = `part, grade, supplier, number, price, core, freight, disposal, stock, lead_days, returnable, date, replaced_by, piece_of, note`

// Prices is the price book of the record, in the order in which it was put in; empty
// when none was. A line that can't be read is job.ErrDamaged.
func (db *DB) Prices(ctx context.Context) (out []repair.Price, err error) {
	err = db.within(ctx, readOnly, "reading the prices", func(tx *sql.Tx) error {
		out, err = prices(ctx, tx)
		return err
	})
	return out, err
}

// ChangePrices puts what change makes of the price book in its place, in one
// transaction: no other bench changes it meanwhile. When change returns an error
// everything stays as it was, and that error comes back.
func (db *DB) ChangePrices(ctx context.Context, change func(old []repair.Price) ([]repair.Price, error)) error {
	return db.within(ctx, nil, "changing the prices", func(tx *sql.Tx) error {
		old, err := prices(ctx, tx)
		if err != nil {
			return err
		}
		next, err := change(old)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, "delete from prices"); err != nil {
			return err
		}
		return insertPrices(ctx, tx, next)
	})
}

func prices(ctx context.Context, tx *sql.Tx) ([]repair.Price, error) {
	var out []repair.Price
	err := each(ctx, tx, "select line, "+priceColumns+" from prices order by line", nil, func(rows *sql.Rows) error {
		p, err := scanPrice(rows)
		out = append(out, p)
		return err
	})
	return out, err
}

// scanPrice reads one line. Its place is the record.
func scanPrice(rows *sql.Rows) (repair.Price, error) {
	var p repair.Price
	var line int64
	var grade string
	var amounts [4]string
	err := rows.Scan(&line, &p.Part, &grade, &p.Supplier, &p.Number, &amounts[0], &amounts[1], &amounts[2], &amounts[3],
		&p.Stock, &p.LeadDays, &p.Returnable, &p.Date, &p.ReplacedBy, &p.Set, &p.Note)
	if err != nil {
		return p, err
	}
	p.Grade, p.Place.File = repair.Grade(grade), "the record"
	for i, into := range []*decimal.Decimal{&p.Each, &p.Core, &p.Freight, &p.Disposal} {
		if *into, err = decimal.NewFromString(amounts[i]); err != nil || into.IsNegative() {
			return p, fmt.Errorf("line %d of the prices has the amount %q: %w", line, amounts[i], job.ErrDamaged)
		}
	}
	return p, nil
}

func insertPrices(ctx context.Context, tx *sql.Tx, all []repair.Price) error {
	statement, err := tx.PrepareContext(ctx, `insert into prices (line, `+priceColumns+`)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`)
	if err != nil {
		return err
	}
	for i, p := range all {
		returnable := 0
		if p.Returnable {
			returnable = 1
		}
		_, err := statement.ExecContext(ctx, i+1, p.Part, string(p.Grade), p.Supplier, p.Number,
			p.Each.String(), p.Core.String(), p.Freight.String(), p.Disposal.String(),
			p.Stock, p.LeadDays, returnable, p.Date, p.ReplacedBy, p.Set, p.Note)
		if err != nil {
			return errors.Join(err, statement.Close())
		}
	}
	return statement.Close()
}
