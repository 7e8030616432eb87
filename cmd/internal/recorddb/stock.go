package recorddb

import (
	"context"
	"database/sql"

	"benchlead/diag/job"
)

// stock puts into the bin what the whole logs of some jobs say of it: jobs that came
// out of another record, all at once. A piece goes in before it comes out, whichever
// job is older. A piece that lay there without a job did not come along: its name
// means another piece here, so only pieces of those jobs are drawn.
func stock(ctx context.Context, tx *sql.Tx, jobs []int64) error {
	on, came := shelf{ctx, tx}, map[int64]bool{}
	for _, id := range jobs {
		came[id] = true
	}
	put := func(id int64, e job.Event) error {
		if e.Binned == nil {
			return nil
		}
		return on.Put(job.Off(id, e))
	}
	draw := func(id int64, e job.Event) error {
		if e.Drawn == nil {
			return nil
		}
		s, ok, err := on.Piece(e.Drawn.Piece)
		if err != nil || !ok || !came[s.Job] || !s.Free() {
			return err
		}
		s.Drawn, s.DrawnBy = id, e.Seq
		return on.Change(s)
	}
	for _, do := range []func(int64, job.Event) error{put, draw} {
		for _, id := range jobs {
			if err := standing(ctx, tx, id, func(e job.Event) error { return do(id, e) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// standing calls do for the events of a job that move a piece and were not taken
// back.
func standing(ctx context.Context, tx *sql.Tx, id int64, do func(job.Event) error) error {
	const query = `select body from events where job = $1 and kind in ('binned', 'drawn', 'undone') order by seq`
	var events []job.Event
	undone := map[int64]bool{}
	err := each(ctx, tx, query, []any{id}, func(rows *sql.Rows) error {
		var body string
		if err := rows.Scan(&body); err != nil {
			return err
		}
		e, err := decode(body)
		if e.Undone != nil {
			undone[e.Undone.Seq] = true
		}
		events = append(events, e)
		return err
	})
	if err != nil {
		return err
	}
	for _, e := range events {
		if !undone[e.Seq] {
			if err := do(e); err != nil {
				return err
			}
		}
	}
	return nil
}
