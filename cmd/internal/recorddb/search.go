package recorddb

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
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
	all := make([]record.Any, len(q.All))
	for i, a := range q.All {
		var err error
		if all[i], err = spelled(ctx, tx, a); err != nil {
			return nil, err
		}
		if len(all[i].Begins) == 0 && len(all[i].Is) == 0 {
			return nil, nil // nothing can fit
		}
	}
	q.All = all
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
	for i, a := range q.All {
		if i != from {
			s.add(" and ")
			s.holds(a, map[bool]string{true: "d.job", false: "c.job"}[from >= 0])
		}
	}
	if q.From != 0 {
		s.add(" and c.opened >= ").arg(q.From)
	}
	if q.To != 0 {
		s.add(" and c.opened < ").arg(q.To)
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

// few is up to how many marks a beginning is put as those marks. Judgement: most
// words that are typed whole begin fewer.
const few = 12

// spelled is a condition with every mark on record that begins so in place of the
// beginning, unless they are many: whole marks are looked up without a card.
func spelled(ctx context.Context, tx *sql.Tx, a record.Any) (record.Any, error) {
	out := record.Any{Is: slices.Clone(a.Is)}
	for _, begins := range a.Begins {
		marks, err := beginning(ctx, tx, begins)
		if err != nil {
			return out, err
		}
		if len(marks) > few {
			out.Begins = append(out.Begins, begins)
			continue
		}
		out.Is = append(out.Is, marks...)
	}
	return out, nil
}

// beginning are the marks on record that begin so, up to one more than few.
func beginning(ctx context.Context, tx *sql.Tx, begins string) ([]string, error) {
	const first = `select min(mark) from marks where mark >= $1 and mark < $2`
	const next = `select min(mark) from marks where mark > $1 and mark < $2`
	var out []string
	for query, from := first, begins; len(out) <= few; query = next {
		var mark sql.NullString
		if err := tx.QueryRowContext(ctx, query, from, begins+afterAll).Scan(&mark); err != nil {
			return nil, err
		}
		if !mark.Valid {
			break
		}
		from = mark.String
		out = append(out, from)
	}
	return out, nil
}

// many is how far jobs are counted that fit one condition. Judgement: counting
// further would cost more than a better start saves.
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
		limit := many
		if least*least < all*enough(q) { // then going back can't be better
			limit = least
		}
		n, err := fits(ctx, tx, a, limit)
		if err != nil {
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

// fits counts the jobs that fit a condition, some perhaps twice, up to a limit.
func fits(ctx context.Context, tx *sql.Tx, a record.Any, limit int) (n int, err error) {
	s := &statement{}
	s.add("select count(*) from (select 1 from marks m where ")
	s.marked(a)
	s.add(" limit ").arg(limit)
	s.add(") counted")
	return n, tx.QueryRowContext(ctx, s.text.String(), s.args...).Scan(&n)
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
		inList(s, a.Is)
		s.add(")")
	}
	s.add(")")
}

// holds is true for cards that fit a condition; job is what to call the card's.
func (s *statement) holds(a record.Any, job string) {
	s.add("(")
	or := ""
	for _, begins := range a.Begins {
		s.add(or + "c.marks like ").arg("% " + literal(begins) + "%")
		s.add(` escape '\'`)
		or = " or "
	}
	if len(a.Is) > 0 {
		s.add(or + "exists (select 1 from marks m where m.job = " + job + " and m.mark in (")
		inList(s, a.Is)
		s.add("))")
	}
	s.add(")")
}

func inList[T any](s *statement, items []T) {
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
	inList(s, ids)
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
