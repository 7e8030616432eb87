package recorddb

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/record"
)

// TakenIn is what became of the jobs of an export.
type TakenIn struct {
	Numbers map[int64]int64 // all jobs: number in the export to number here
	New     []int64         // numbers in the export of those that are new, in its order
	Differ  []Differs       // when there are any, nothing was taken in
}

// Differs is a job of an export that this record has with another log.
type Differs struct {
	Job, Here int64 // its number in the export, and here
}

// errDiffers takes back what was taken in before a job that differs.
var errDiffers = errors.New("a job goes on otherwise here")

// TakeIn adds whole jobs of another record under new numbers, in one transaction:
// all of them or none. A job is here already when one begins with the same event;
// it is left as it is when the export has nothing that goes beyond it; otherwise
// it is one of Differ. heads are those of all jobs in their order; read calls take
// for each of them in that order. With try nothing is kept.
func (db *DB) TakeIn(ctx context.Context, heads []record.Head, read func(take func(record.Log) error) error, try bool) (TakenIn, error) {
	var out TakenIn
	opts := map[bool]*sql.TxOptions{true: readOnly}[try]
	err := db.within(ctx, opts, "taking jobs in", func(tx *sql.Tx) error {
		t := taking{tx: tx, try: try}
		if err := t.number(ctx, heads); err != nil {
			return err
		}
		if err := read(func(l record.Log) error { return t.take(ctx, l) }); err != nil {
			return err
		}
		out = TakenIn{t.numbers, t.fresh, t.differ}
		if len(t.differ) > 0 {
			return errDiffers
		}
		return t.stock(ctx)
	})
	if err != nil && !errors.Is(err, errDiffers) {
		return TakenIn{}, err
	}
	return out, nil
}

// taking is an export while it is taken in.
type taking struct {
	tx      *sql.Tx
	try     bool
	numbers map[int64]int64   // of all jobs
	here    map[int64][]int64 // jobs here that begin with the same event
	fresh   []int64
	differ  []Differs
}

// number gives the jobs that are not here yet the next free numbers.
func (t *taking) number(ctx context.Context, heads []record.Head) error {
	var next int64
	if err := t.tx.QueryRowContext(ctx, `select coalesce(max(id), 0) + 1 from jobs`).Scan(&next); err != nil {
		return err
	}
	t.numbers, t.here = map[int64]int64{}, map[int64][]int64{}
	for _, h := range heads {
		same, err := t.same(ctx, h)
		if err != nil {
			return err
		}
		if len(same) > 0 {
			t.here[h.ID], t.numbers[h.ID] = same, same[0]
			continue
		}
		t.numbers[h.ID] = next
		next++
	}
	return nil
}

// same are the jobs here that begin with the same event.
func (t *taking) same(ctx context.Context, h record.Head) ([]int64, error) {
	const query = `select c.job, e.body from cards c join events e on e.job = c.job and e.seq = 1 where c.opened = $1 order by c.job`
	var out []int64
	err := each(ctx, t.tx, query, []any{h.OpenedAt}, func(rows *sql.Rows) error {
		var id int64
		var body string
		if err := rows.Scan(&id, &body); err != nil {
			return err
		}
		e, err := decode(body)
		if err == nil && record.DigestOf(e) == h.First {
			out = append(out, id)
		}
		return err
	})
	return out, err
}

// take takes one job in, or looks that there is nothing new in it.
func (t *taking) take(ctx context.Context, l record.Log) error {
	to, known := t.numbers[l.Job]
	if !known {
		return fmt.Errorf("job %d was not in the file when it was looked through: it was changed meanwhile, and nothing was taken in", l.Job)
	}
	record.Renumber(l.Events, t.numbers)
	if here := t.here[l.Job]; len(here) > 0 {
		return t.nothingNew(ctx, l, here)
	}
	t.fresh = append(t.fresh, l.Job)
	if t.try {
		return nil
	}
	events, err := job.Number(0, false, l.Events)
	if err != nil {
		return err
	}
	if _, err := t.tx.ExecContext(ctx, `insert into jobs (id) values ($1)`, to); err != nil {
		return err
	}
	return insert(ctx, t.tx, to, events)
}

// stock puts into the parts bin what the new jobs say of it, once all are there.
func (t *taking) stock(ctx context.Context) error {
	if t.try {
		return nil
	}
	jobs := make([]int64, len(t.fresh))
	for i, id := range t.fresh {
		jobs[i] = t.numbers[id]
	}
	return stock(ctx, t.tx, jobs)
}

// nothingNew notes a job of which no job here holds all that the export has.
func (t *taking) nothingNew(ctx context.Context, l record.Log, here []int64) error {
	for _, id := range here {
		events, err := load(ctx, t.tx, id)
		if err != nil {
			return err
		}
		if record.Extends(events, l.Events) {
			return nil
		}
	}
	t.differ = append(t.differ, Differs{l.Job, slices.Min(here)})
	return nil
}
