package recorddb

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/record"
)

// carry brings the card of a job up to date with events that were just added, of
// which there is one at least.
func carry(ctx context.Context, tx *sql.Tx, id int64, added []job.Event) error {
	if added[0].Seq == 1 {
		return putCard(ctx, tx, record.CardOf(id, added), true)
	}
	if slices.ContainsFunc(added, func(e job.Event) bool { return !record.Plain(e) }) {
		return recard(ctx, tx, id, false)
	}
	_, err := tx.ExecContext(ctx, moveCard, moved(id, added)...)
	return err
}

// recard writes the card of a job anew from its log. Events that can't be read are
// left out: Load tells of them.
func recard(ctx context.Context, tx *sql.Tx, id int64, fresh bool) error {
	var events []job.Event
	const query = `select body from events where job = $1 order by seq`
	err := each(ctx, tx, query, []any{id}, func(rows *sql.Rows) error {
		var body string
		if err := rows.Scan(&body); err != nil {
			return err
		}
		if e, err := decode(body); err == nil {
			events = append(events, e)
		}
		return nil
	})
	if err != nil {
		return err
	}
	return putCard(ctx, tx, record.CardOf(id, events), fresh)
}

// putCard writes a card and its marks over those that were there; fresh says that
// there were none.
func putCard(ctx context.Context, tx *sql.Tx, c record.Card, fresh bool) error {
	var had []string
	if !fresh {
		var text string
		const query = `select marks from cards where job = $1`
		if err := tx.QueryRowContext(ctx, query, c.ID).Scan(&text); err != nil {
			return err
		}
		had = strings.Fields(text)
	}
	query := insertCard
	if !fresh {
		query = updateCard
	}
	if _, err := tx.ExecContext(ctx, query, cardRow(c)...); err != nil {
		return err
	}
	return errors.Join(dropMarks(ctx, tx, c.ID, without(had, c.Marks)), addMarks(ctx, tx, c.ID, without(c.Marks, had)))
}

const (
	insertCard = `insert into cards
		(job, opened, last, ended, outcome, system, complaint, machine, owner, words, found, came, faults, repairs, parts, quoted, spent, marks)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18)`
	updateCard = `update cards set
		opened = $2, last = $3, ended = $4, outcome = $5, system = $6, complaint = $7, machine = $8, owner = $9, words = $10,
		found = $11, came = $12, faults = $13, repairs = $14, parts = $15, quoted = $16, spent = $17, marks = $18
		where job = $1`
	// cardColumns are what scanCard reads.
	cardColumns = `job, opened, last, ended, outcome, system, complaint, machine, owner, words, found, came, faults, repairs, parts, quoted, spent`
)

func cardRow(c record.Card) []any {
	return []any{
		c.ID, c.OpenedAt, c.LastAt, c.EndedAt, string(c.Outcome), c.System, c.Complaint, c.Machine, c.Owner, c.Words,
		list(c.Found), list(c.Came), list(c.Faults), list(c.Repairs), list(c.Parts), c.Quoted, c.Spent,
		" " + strings.Join(c.Marks, " ") + " ",
	}
}

// list is a list as one text; "" for none.
func list(items []string) string {
	if len(items) == 0 {
		return ""
	}
	text, _ := json.Marshal(items) // strings always can be
	return string(text)
}

func unlist(text string) ([]string, error) {
	if text == "" {
		return nil, nil
	}
	var items []string
	if err := json.Unmarshal([]byte(text), &items); err != nil {
		return nil, fmt.Errorf("%w (%w)", job.ErrDamaged, err)
	}
	return items, nil
}

// scanCard reads a card, its marks left out.
func scanCard(rows *sql.Rows) (record.Card, error) {
	var c record.Card
	var outcome string
	var lists [5]string
	err := rows.Scan(&c.ID, &c.OpenedAt, &c.LastAt, &c.EndedAt, &outcome, &c.System, &c.Complaint, &c.Machine, &c.Owner, &c.Words,
		&lists[0], &lists[1], &lists[2], &lists[3], &lists[4], &c.Quoted, &c.Spent)
	if err != nil {
		return c, err
	}
	c.Outcome, c.Open = job.Outcome(outcome), outcome == ""
	for i, into := range []*[]string{&c.Found, &c.Came, &c.Faults, &c.Repairs, &c.Parts} {
		if *into, err = unlist(lists[i]); err != nil {
			return c, err
		}
	}
	return c, nil
}

// without are the marks of a that are not in b; both are sorted.
func without(a, b []string) []string {
	var out []string
	for _, m := range a {
		if _, is := slices.BinarySearch(b, m); !is {
			out = append(out, m)
		}
	}
	return out
}

func addMarks(ctx context.Context, tx *sql.Tx, id int64, marks []string) error {
	rows := make([][]any, len(marks))
	for i, m := range marks {
		rows[i] = []any{m, id}
	}
	return insertRows(ctx, tx, `insert into marks (mark, job) values `, rows)
}

func dropMarks(ctx context.Context, tx *sql.Tx, id int64, marks []string) error {
	for _, m := range marks {
		if _, err := tx.ExecContext(ctx, `delete from marks where mark = $1 and job = $2`, m, id); err != nil {
			return err
		}
	}
	return nil
}
