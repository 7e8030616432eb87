package prove

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// Comparison is a table beside one made later.
type Comparison struct {
	Worse []Change // in the order of the tables
	Other int      // rows that differ and are not worse
	Same  int      // rows that don't differ
}

// Change is one fault in one tree, or a whole tree, that is worse than it was.
type Change struct {
	Tree, System string
	Fault        string   // "": all faults of the tree
	Was, Now     *Row     // nil: not in that table
	Says         []string // what is worse
}

// Against compares a table with the one stored. A figure is worse when fewer
// faults are found (by themselves or in a group), or when more are left for a
// reading too close, left behind another fault, missed or judged wrong; when it
// takes longer, or more faults are left neither found nor cleared. So is a fault
// or a tree that is in one table only: what was proved must stay proved, and what
// is new must be stored.
func (t Table) Against(stored Table) Comparison {
	var out Comparison
	was, now := stored.byName(), t.byName()
	for _, row := range merged(stored, t) {
		before, after := was[row.name()], now[row.name()]
		switch {
		case before == nil:
			out.lone(row, stored, Change{Now: after, Says: []string{"is not in the table"}})
		case after == nil:
			out.lone(row, t, Change{Was: before, Says: []string{"is in the table and is no longer proved"}})
		default:
			out.both(*before, *after)
		}
	}
	return out
}

// name is the row without its figures.
func (r Row) name() Row { return Row{Tree: r.Tree, System: r.System, Fault: r.Fault} }

func (t Table) byName() map[Row]*Row {
	out := map[Row]*Row{}
	for i, r := range t.Rows {
		out[r.name()] = &t.Rows[i]
	}
	return out
}

// merged are the rows of both tables in order, one for each name.
func merged(a, b Table) []Row {
	all := slices.Concat(a.Rows, b.Rows)
	slices.SortStableFunc(all, Row.compare)
	return slices.CompactFunc(all, func(x, y Row) bool { return x.compare(y) == 0 })
}

// has says whether a table has any fault of a row's tree.
func (t Table) has(r Row) bool {
	return slices.ContainsFunc(t.Rows, func(o Row) bool { return o.Tree == r.Tree && o.System == r.System })
}

// lone notes a row that the other table lacks; once, when it lacks the tree.
func (c *Comparison) lone(r Row, other Table, change Change) {
	change.Tree, change.System, change.Fault = r.Tree, r.System, r.Fault
	if !other.has(r) {
		change.Fault, change.Was, change.Now = "", nil, nil
		if n := len(c.Worse); n > 0 && c.Worse[n-1].Tree == r.Tree && c.Worse[n-1].System == r.System {
			return
		}
	}
	c.Worse = append(c.Worse, change)
}

// both compares the figures of one fault.
func (c *Comparison) both(was, now Row) {
	says := losses(was, now)
	if now.Failed != "" {
		says = []string{"could not be run: " + now.Failed}
	}
	switch {
	case len(says) > 0:
		c.Worse = append(c.Worse, Change{
			Tree: now.Tree, System: now.System, Fault: now.Fault, Was: &was, Now: &now, Says: says,
		})
	case was.written() != now.written():
		c.Other++
	default:
		c.Same++
	}
}

// How much an average may rise and still count as the same: a file holds minutes
// to a tenth and faults to a hundredth. The machines are the same each time, so
// what is more is no chance.
const (
	slower      = 1.02
	minuteSteps = 0.1
	leftMore    = 0.03
)

// losses says which figures are worse, with both of each.
func losses(before, after Row) []string {
	var out []string
	was, now := before.Counts, after.Counts
	if w, n := was.Found+was.Group, now.Found+now.Group; n < w {
		out = append(out, fmt.Sprintf("found, by itself or in a group: %d, was %d", n, w))
	}
	for _, f := range []struct {
		says     string
		was, now int
	}{
		{"close", was.Close, now.Close},
		{"masked", was.Masked, now.Masked},
		{"missed", was.Missed, now.Missed},
		{"wrong", was.Wrong, now.Wrong},
	} {
		if f.now > f.was {
			out = append(out, fmt.Sprintf("%s: %d, was %d", f.says, f.now, f.was))
		}
	}
	if after.Minutes > before.Minutes*slower+minuteSteps {
		out = append(out, fmt.Sprintf("slower: %.1f min on average, was %.1f", after.Minutes, before.Minutes))
	}
	if after.Left > before.Left+leftMore {
		out = append(out, fmt.Sprintf("more left neither found nor cleared: %.2f on average, was %.2f", after.Left, before.Left))
	}
	return out
}

// written is the row as a file holds it.
func (r Row) written() Row {
	r.Minutes, r.Left, r.Failed = rounded(r.Minutes, minutePlaces), rounded(r.Left, leftPlaces), ""
	return r
}

// AgainstText writes a comparison for people: what is worse, with both rows and
// the walks that show it. The name is that of the stored table.
func AgainstText(w io.Writer, r Report, c Comparison, name string) error {
	p := &page{w: w}
	for _, change := range c.Worse {
		p.change(change)
		for _, t := range r.Trees {
			for _, f := range t.Faults {
				if t.Tree == change.Tree && t.System == change.System && f.Fault == change.Fault {
					p.misses(t, f)
				}
			}
		}
	}
	p.totals(r)
	p.line("Beside %s: %d worse, %d as stored.", name, len(c.Worse), c.Same)
	if c.Other > 0 {
		p.line("%d differ and are not worse: the table can be written anew (make update).", c.Other)
	}
	return p.err
}

func (p *page) change(c Change) {
	what := "the tree"
	if c.Fault != "" {
		what = c.Fault
	}
	p.line("WORSE: %s (%s), %s: %s", c.Tree, c.System, what, strings.Join(c.Says, "; "))
	if c.Was != nil || c.Now != nil {
		p.line("    %-6s  %6s %6s %6s %6s %6s %6s %6s %6s %6s", "", "draws", "found", "group", "close", "masked", "missed", "wrong", "min", "left")
	}
	p.counts("stored", c.Was)
	p.counts("now", c.Now)
	p.line("")
}

// counts writes one row of figures, if there is one.
func (p *page) counts(says string, r *Row) {
	if r != nil {
		n := r.Counts
		p.line("    %-6s  %6d %6d %6d %6d %6d %6d %6d %6.1f %6.2f", says, n.Draws, n.Found, n.Group, n.Close, n.Masked, n.Missed, n.Wrong, r.Minutes, r.Left)
	}
}

// Err says what to do when anything is worse; else it is nil.
func (c Comparison) Err(name string) error {
	if len(c.Worse) == 0 {
		return nil
	}
	return fmt.Errorf("%d worse than in %s: mend the trees named; or, where it is meant, write the table anew with \"make update\" (benchlead prove --store %s) and say why where you commit it",
		len(c.Worse), name, name)
}
