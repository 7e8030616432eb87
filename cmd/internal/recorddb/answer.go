package recorddb

import (
	"context"
	"database/sql"
	"math"

	"benchlead/diag/job"
	"benchlead/diag/record"
)

// The statements of every answer.
const (
	endsAt = `select
		(select max(seq) from events where job = $1),
		(select count(*) from events where job = $1 and kind = $2)`
	addEvent = `insert into events (job, seq, at, kind, body) values ($1, $2, $3, $4, $5)`
	// moveCard says when a job was last worked on, and adds to how long. The gap before
	// the events is added only when it was no pause, as record.Between does.
	moveCard = `update cards set
		spent = spent + $2 + case when last < $3 and last >= $4 then $3 - last else 0 end, last = $5 where job = $1`
)

// prepare has the statements of every answer ready.
func (db *DB) prepare(ctx context.Context) error {
	db.ready = map[string]*sql.Stmt{}
	for _, query := range []string{endsAt, addEvent, moveCard} {
		s, err := db.sql.PrepareContext(ctx, query)
		if err != nil {
			return err
		}
		db.ready[query] = s
	}
	return nil
}

// addPlain is insert for one event that changes nothing else on a card: nearly every
// answer at the bench.
func (db *DB) addPlain(ctx context.Context, tx *sql.Tx, id int64, e job.Event) error {
	body, err := job.Encode(e)
	if err != nil {
		return err
	}
	if _, err := tx.StmtContext(ctx, db.ready[addEvent]).ExecContext(ctx, id, e.Seq, e.At, string(e.Kind), string(body)); err != nil {
		return err
	}
	_, err = tx.StmtContext(ctx, db.ready[moveCard]).ExecContext(ctx, moved(id, []job.Event{e})...)
	return err
}

// moved is what moveCard wants for plain events that follow each other.
func moved(id int64, added []job.Event) []any {
	first, last, spent := added[0].At, added[0].At, int64(0)
	for _, e := range added[1:] {
		spent += record.Between(last, e.At)
		last = e.At
	}
	pause := max(first, math.MinInt64+record.Pause) - record.Pause
	return []any{id, spent, first, pause, last}
}
