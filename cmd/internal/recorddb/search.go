package recorddb

import (
	"context"
	"database/sql"
	"fmt"
	"strings"

	"benchlead/diag/record"
)

// Search looks for jobs. What it finds is what Query.Pick finds among all cards,
// their marks left out.
func (db *DB) Search(ctx context.Context, q record.Query) (record.Answer, error) {
	var out record.Answer
	err := db.within(ctx, readOnly, "looking for jobs", func(tx *sql.Tx) error {
		ids, err := find(ctx, tx, q)
		if err != nil {
			return err
		}
		shown := min(max(q.Most, 0), len(ids))
		out.More = min(len(ids)-shown, record.ManyMore)
		out.Cards, err = cardsOf(ctx, tx, ids[:shown])
		return err
	})
	if err != nil {
		return record.Answer{}, err
	}
	return out, nil
}

// find gives the jobs that fit, the newest first, up to enough.
func find(ctx context.Context, tx *sql.Tx, q record.Query) ([]int64, error) {
	for _, a := range q.All {
		if len(a.Begins) == 0 && len(a.Is) == 0 {
			return nil, nil // nothing can fit
		}
	}
	from, err := startFrom(ctx, tx, q)
	if err != nil {
		return nil, err
	}
	s := &statement{}
	s.add("select c.job from ")
	if from >= 0 {
		s.add("(select distinct m.job as job from marks m where ")
		s.marked(q.All[from])
		s.add(") d cross join cards c where c.job = d.job") // in this order: from the few to their cards
	} else {
		s.add("cards c where 1 = 1")
	}
	if q.From != 0 {
		s.add(" and c.opened >= ").arg(q.From)
	}
	if q.To != 0 {
		s.add(" and c.opened < ").arg(q.To)
	}
	for i, a := range q.All {
		if i != from {
			s.add(" and ")
			s.holds(a)
		}
	}
	s.add(" order by c.opened desc, c.job desc limit ").arg(enough(q))
	var ids []int64
	err = each(ctx, tx, s.text.String(), s.args, func(rows *sql.Rows) error {
		var id int64
		err := rows.Scan(&id)
		ids = append(ids, id)
		return err
	})
	return ids, err
}

// many is how far jobs are counted that fit one condition.
const many = 20_000

// startFrom says from which condition to begin, which is from all jobs that fit it;
// -1: from the newest job, going back until enough fit. It takes what promises to
// look at fewer jobs, taking it that conditions have nothing to do with each other.
func startFrom(ctx context.Context, tx *sql.Tx, q record.Query) (int, error) {
	var all int
	if err := tx.QueryRowContext(ctx, `select coalesce(max(id), 0) from jobs`).Scan(&all); err != nil {
		return -1, err
	}
	best, least := -1, many
	back := float64(enough(q))
	for i, a := range q.All {
		s := &statement{}
		s.add("select count(*) from (select 1 from marks m where ")
		s.marked(a)
		s.add(" limit ").arg(many)
		s.add(") few")
		var n int
		if err := tx.QueryRowContext(ctx, s.text.String(), s.args...).Scan(&n); err != nil {
			return -1, err
		}
		if n < least {
			best, least = i, n
		}
		back *= float64(all) / float64(max(n, 1))
	}
	if back < float64(least) {
		best = -1
	}
	return best, nil
}

// enough is how many jobs that fit are wanted: those that are shown, and as many
// as are counted.
func enough(q record.Query) int { return max(q.Most, 0) + record.ManyMore }

// statement is SQL while it is put together.
type statement struct {
	text strings.Builder
	args []any
}

func (s *statement) add(sql string) *statement {
	s.text.WriteString(sql)
	return s
}

func (s *statement) arg(value any) {
	s.args = append(s.args, value)
	fmt.Fprintf(&s.text, "$%d", len(s.args))
}

// afterAll sorts behind every other character, in bytes too.
const afterAll = "\U0010FFFF"

// marked is true for rows of marks that fit a condition.
func (s *statement) marked(a record.Any) {
	s.add("(")
	or := ""
	for _, begins := range a.Begins {
		s.add(or + "m.mark >= ").arg(begins)
		s.add(" and m.mark < ").arg(begins + afterAll)
		or = " or "
	}
	if len(a.Is) > 0 {
		s.add(or + "m.mark in (")
		s.list(a.Is)
		s.add(")")
	}
	s.add(")")
}

// holds is true for cards that fit a condition.
func (s *statement) holds(a record.Any) {
	s.add("(")
	or := ""
	for _, begins := range a.Begins {
		s.add(or + "c.marks like ").arg("% " + literal(begins) + "%")
		s.add(` escape '\'`)
		or = " or "
	}
	if len(a.Is) > 0 {
		s.add(or + "exists (select 1 from marks m where m.job = c.job and m.mark in (")
		s.list(a.Is)
		s.add("))")
	}
	s.add(")")
}

func (s *statement) list(items []string) {
	for i, item := range items {
		if i > 0 {
			s.add(", ")
		}
		s.arg(item)
	}
}

// literal takes from a text what like would read as "anything".
var literal = strings.NewReplacer(`\`, `\\`, `%`, `\%`, `_`, `\_`).Replace

// cardsOf are the cards of jobs, in their order.
func cardsOf(ctx context.Context, tx *sql.Tx, ids []int64) ([]record.Card, error) {
	if len(ids) == 0 {
		return nil, nil
	}
	s := &statement{}
	s.add("select " + cardColumns + " from cards where job in (")
	for i, id := range ids {
		if i > 0 {
			s.add(", ")
		}
		s.arg(id)
	}
	s.add(")")
	got := make(map[int64]record.Card, len(ids))
	err := each(ctx, tx, s.text.String(), s.args, func(rows *sql.Rows) error {
		c, err := scanCard(rows)
		got[c.ID] = c
		return err
	})
	var out []record.Card
	for _, id := range ids {
		out = append(out, got[id])
	}
	return out, err
}
