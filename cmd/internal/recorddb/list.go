package recorddb

import (
	"context"
	"database/sql"

	"benchlead/diag/job"
)

// summaries finds of each job the first event, the last, and the closing one.
const summaries = `
select j.id, f.body, l.body, coalesce(c.body, '')
from jobs j
join events f on f.job = j.id and f.seq = 1
join events l on l.job = j.id and l.seq = (select max(m.seq) from events m where m.job = j.id)
left join events c on c.job = j.id and c.kind = $1
order by j.id`

// Jobs lists all jobs by number.
func (db *DB) Jobs(ctx context.Context) ([]job.Summary, error) {
	var out []job.Summary
	err := db.within(ctx, readOnly, "listing the jobs", func(tx *sql.Tx) error {
		return each(ctx, tx, summaries, []any{string(job.KindClosed)}, func(rows *sql.Rows) error {
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
	var id int64
	var bodies [3]string
	if err := rows.Scan(&id, &bodies[0], &bodies[1], &bodies[2]); err != nil {
		return job.Summary{}, err
	}
	var events [3]job.Event
	for i, body := range bodies {
		if body == "" {
			continue
		}
		var err error
		if events[i], err = decode(body); err != nil {
			return job.Summary{}, err
		}
	}
	return job.Summarize(id, events[0], events[1], events[2].Closed), nil
}
