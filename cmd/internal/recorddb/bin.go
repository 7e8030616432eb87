package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"benchlead/diag/job"
)

// pieces are the columns that scanPiece reads.
const pieces = `select name, body, coalesce(job, 0), coalesce(seq, 0), coalesce(drawn, 0), coalesce(drawn_seq, 0), gone, gone_why, gone_at from bin`

// Bin lists the pieces of the parts bin in the order they went in.
func (db *DB) Bin(ctx context.Context) ([]job.Shelved, error) {
	var out []job.Shelved
	err := db.within(ctx, readOnly, "listing the parts bin", func(tx *sql.Tx) error {
		return each(ctx, tx, pieces+` order by number`, nil, func(rows *sql.Rows) error {
			s, err := scanPiece(rows.Scan)
			out = append(out, s)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

func scanPiece(scan func(...any) error) (job.Shelved, error) {
	var s job.Shelved
	var body string
	if err := scan(&s.Name, &body, &s.Job, &s.Seq, &s.Drawn, &s.DrawnBy, &s.Gone.How, &s.Gone.Why, &s.Gone.At); err != nil {
		return s, err
	}
	e, err := decode(body)
	if err == nil && e.Binned == nil {
		err = fmt.Errorf("piece %q of the parts bin holds %q: %w", s.Name, e.Kind, job.ErrDamaged)
	}
	if err != nil {
		return s, err
	}
	return s.Put(*e.Binned, e.At), nil
}

// Shelve puts a piece that came without a job into the bin.
func (db *DB) Shelve(ctx context.Context, piece job.Binned, at int64) (string, error) {
	var s job.Shelved
	err := db.within(ctx, nil, "putting a piece into the parts bin", func(tx *sql.Tx) error {
		var n int64
		// Pieces without a job are never removed, so a name is never given twice.
		err := tx.QueryRowContext(ctx, `select count(*) + 1 from bin where job is null`).Scan(&n)
		if err == nil {
			s, err = job.Loose(n, piece, at)
		}
		if err != nil {
			return err
		}
		return shelf{ctx, tx}.Put(s)
	})
	if err != nil {
		return "", err
	}
	return s.Name, nil
}

// Discard takes a piece out of the bin for good.
func (db *DB) Discard(ctx context.Context, name string, gone job.Gone) error {
	return db.within(ctx, nil, "taking a piece out of the parts bin", func(tx *sql.Tx) error {
		on := shelf{ctx, tx}
		s, ok, err := on.Piece(name)
		if err == nil && !ok {
			err = fmt.Errorf("piece %q: %w", name, job.ErrNoPiece)
		}
		if err != nil {
			return err
		}
		if s, err = job.Discard(s, gone); err != nil {
			return err
		}
		return on.Change(s)
	})
}

// shelf is the bin within one transaction.
type shelf struct {
	ctx context.Context
	tx  *sql.Tx
}

var _ job.Shelf = shelf{}

// restock moves pieces as a job's new events say.
func restock(ctx context.Context, tx *sql.Tx, id int64, events []job.Event) error {
	return job.Restock(shelf{ctx, tx}, id, events, func(seq int64) (job.Event, error) {
		var body string
		err := tx.QueryRowContext(ctx, `select body from events where job = $1 and seq = $2`, id, seq).Scan(&body)
		switch {
		case errors.Is(err, sql.ErrNoRows):
			return job.Event{}, fmt.Errorf("job %d has no event %d: %w", id, seq, job.ErrDamaged)
		case err != nil:
			return job.Event{}, err
		}
		return decode(body)
	})
}

// Piece gives the piece of that name.
func (s shelf) Piece(name string) (job.Shelved, bool, error) {
	p, err := scanPiece(s.tx.QueryRowContext(s.ctx, pieces+` where name = $1`, name).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return job.Shelved{}, false, nil
	}
	return p, err == nil, err
}

// Put adds a piece behind all others.
func (s shelf) Put(p job.Shelved) error {
	said := p.Binned()
	body, err := job.Encode(job.Event{Seq: p.Seq, At: p.At, Kind: job.KindBinned, Binned: &said})
	if err != nil {
		return err
	}
	var number int64
	if err := s.tx.QueryRowContext(s.ctx, `select coalesce(max(number), 0) + 1 from bin`).Scan(&number); err != nil {
		return err
	}
	const query = `insert into bin (number, name, part, body, job, seq) values ($1, $2, $3, $4, $5, $6)`
	_, err = s.tx.ExecContext(s.ctx, query, number, p.Name, p.Part, string(body), orNull(p.Job), orNull(p.Seq))
	return err
}

// Change keeps where the piece is now. It was free, or this job's: where another
// bench was faster on a server without one writer, nothing is changed.
func (s shelf) Change(p job.Shelved) error {
	const query = `update bin set drawn = $1, drawn_seq = $2, gone = $3, gone_why = $4, gone_at = $5
		where name = $6 and gone = '' and (drawn is null or $1 is null)`
	result, err := s.tx.ExecContext(s.ctx, query, orNull(p.Drawn), orNull(p.DrawnBy), string(p.Gone.How), p.Gone.Why, p.Gone.At, p.Name)
	if err != nil {
		return err
	}
	changed, err := result.RowsAffected()
	if err == nil && changed != 1 {
		err = fmt.Errorf("piece %q: %w", p.Name, job.ErrTaken)
	}
	return err
}

// Remove takes a piece out as if it had never been there.
func (s shelf) Remove(name string) error {
	_, err := s.tx.ExecContext(s.ctx, `delete from bin where name = $1`, name)
	return err
}

// orNull is a number of a job or an event; there is none with 0.
func orNull(n int64) sql.NullInt64 { return sql.NullInt64{Int64: n, Valid: n != 0} }
