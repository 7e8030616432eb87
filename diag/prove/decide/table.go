package decide

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Table is the figures of a proof, to be held against those of another.
type Table struct {
	Setting
	Rows []TableRow
}

// TableRow is the figures of one world in one system: counts of cases, and minutes on
// the bench by case.
type TableRow struct {
	System, World      string
	Cases, Exact, Back int
	Sure, SureWrong    int
	Minutes, Tests     float64 // by case
}

// NewTable is the figures of some rows.
func NewTable(s Setting, rows []Row) Table {
	t := Table{Setting: s}
	for _, r := range rows {
		n := float64(max(r.Cases, 1))
		t.Rows = append(t.Rows, TableRow{r.System, r.ID, r.Cases, r.Exact, r.Back, r.Sure, r.SureWrong, r.Minutes / n, float64(r.Tests) / n})
	}
	return t
}

const (
	tableHead = "suspects: %d machines a hypothesis, %d cases a world, seed %d\n"
	tableLine = "%s %s cases %d exact %d back %d sure %d wrong %d minutes %.1f tests %.1f\n"
)

// WriteTable writes it, a line a row.
func WriteTable(w io.Writer, t Table) error {
	_, err := fmt.Fprintf(w, tableHead, t.Machines, t.Cases, t.Seed)
	for _, r := range t.Rows {
		if err == nil {
			_, err = fmt.Fprintf(w, tableLine, r.System, r.World, r.Cases, r.Exact, r.Back, r.Sure, r.SureWrong, r.Minutes, r.Tests)
		}
	}
	return err
}

// ReadTable reads what WriteTable wrote. The error names the line.
func ReadTable(r io.Reader) (Table, error) {
	var t Table
	lines := bufio.NewScanner(r)
	for n := 1; lines.Scan(); n++ {
		if n == 1 {
			if _, err := fmt.Sscanf(lines.Text()+"\n", tableHead, &t.Machines, &t.Cases, &t.Seed); err != nil {
				return t, fmt.Errorf("line 1: it is no table of the suspects; write one with --store")
			}
			continue
		}
		var row TableRow
		if _, err := fmt.Sscanf(lines.Text()+"\n", strings.ReplaceAll(tableLine, "%.1f", "%g"), &row.System, &row.World, &row.Cases, &row.Exact, &row.Back, &row.Sure, &row.SureWrong, &row.Minutes, &row.Tests); err != nil {
			return t, fmt.Errorf("line %d: it is no row of figures; write the table anew with --store", n)
		}
		t.Rows = append(t.Rows, row)
	}
	return t, lines.Err()
}

// slower is the share by which minutes may rise unsaid.
const slower = 0.02

// Worse says what has become worse than in another table, a line each; rows that only
// one of them has are worse, too.
func (t Table) Worse(than Table) []string {
	var out []string
	old := map[string]TableRow{}
	for _, r := range than.Rows {
		old[r.System+" "+r.World] = r
	}
	for _, r := range t.Rows {
		name := r.System + " " + r.World
		was, had := old[name]
		delete(old, name)
		var how []string
		say := func(what string, was, is int) { how = append(how, fmt.Sprintf("%s %d, was %d", what, is, was)) }
		switch {
		case !had:
			how = append(how, "it was not there before")
		default:
			if r.Exact < was.Exact {
				say("exact", was.Exact, r.Exact)
			}
			if r.Back > was.Back {
				say("back", was.Back, r.Back)
			}
			if r.SureWrong > was.SureWrong {
				say("sure and wrong", was.SureWrong, r.SureWrong)
			}
			if r.Minutes > was.Minutes*(1+slower) {
				how = append(how, fmt.Sprintf("minutes %.1f, was %.1f", r.Minutes, was.Minutes))
			}
		}
		if len(how) > 0 {
			out = append(out, name+": "+strings.Join(how, "; "))
		}
	}
	for _, r := range than.Rows {
		if name := r.System + " " + r.World; old[name].System != "" {
			out = append(out, name+": it is no longer there")
		}
	}
	return out
}

// Systems are the systems of the table, in its order.
func (t Table) Systems() []string {
	var out []string
	for _, r := range t.Rows {
		if !slices.Contains(out, r.System) {
			out = append(out, r.System)
		}
	}
	return out
}
