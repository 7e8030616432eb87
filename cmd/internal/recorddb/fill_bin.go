package recorddb

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
)

// fillBin puts into the new table what the logs of before say of the parts bin.
// Like the file that made the table it is never edited: it writes the columns of
// that version, and reads events as they were then. An event that can't be read
// is passed over; loading its job says what is wrong with it.
func fillBin(ctx context.Context, tx *sql.Tx) error {
	var moves []move
	const query = `select job, seq, body from events where kind in ('binned', 'drawn', 'undone') order by job, seq`
	err := each(ctx, tx, query, nil, func(rows *sql.Rows) error {
		var m move
		if err := rows.Scan(&m.job, &m.seq, &m.body); err != nil {
			return err
		}
		if json.Unmarshal([]byte(m.body), &m) == nil {
			moves = append(moves, m)
		}
		return nil
	})
	undone := map[[2]int64]bool{}
	for _, m := range moves {
		if m.Undone != nil {
			undone[[2]int64{m.job, m.Undone.Of}] = true
		}
	}
	moves = slices.DeleteFunc(moves, func(m move) bool { return undone[[2]int64{m.job, m.seq}] })
	number := 0
	for _, m := range moves {
		if m.Binned != nil {
			number++
			err = errors.Join(err, m.putIn(ctx, tx, number))
		}
	}
	// Only now: the piece may come from a job that began later.
	for _, m := range moves {
		if m.Drawn != nil {
			err = errors.Join(err, m.takeOut(ctx, tx))
		}
	}
	return err
}

// move is an event of before that moved a piece, or took another back.
type move struct {
	job, seq int64
	body     string

	Binned *struct {
		Part string `json:"part"`
	} `json:"binned"`
	Drawn *struct {
		Piece string `json:"piece"`
	} `json:"drawn"`
	Undone *struct {
		Of int64 `json:"of"`
	} `json:"undone"`
}

func (m move) putIn(ctx context.Context, tx *sql.Tx, number int) error {
	const query = `insert into bin (number, name, part, body, job, seq) values ($1, $2, $3, $4, $5, $6)`
	_, err := tx.ExecContext(ctx, query, number, fmt.Sprintf("%d.%d", m.job, m.seq), m.Binned.Part, m.body, m.job, m.seq)
	return err
}

// takeOut marks the piece that was drawn. Of several draws the first counts: then
// nothing kept two jobs from it.
func (m move) takeOut(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, `update bin set drawn = $1, drawn_seq = $2 where name = $3 and drawn is null`, m.job, m.seq, m.Drawn.Piece)
	return err
}
