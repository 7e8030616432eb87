package record

import (
	"encoding/csv"
	"errors"
	"io"

	"benchlead/diag/source"
)

// Names are the titles of what a log has only ids of; the id where there is none.
type Names struct {
	Fault  func(system, id string) string
	Repair func(id string) string
}

// TableNames are the tables of an export as CSV, in the order NewTables wants
// them in.
func TableNames() []string {
	out := make([]string, len(tables))
	for i, t := range tables {
		out[i] = t.name
	}
	return out
}

// table is one table: its columns, and the rows of one job.
type table struct {
	name    string
	columns []string
	rows    func(l Log, c Card, n Names) [][]string
}

var tables = []table{
	{"jobs", []string{
		"job", "taken_in", "last", "closed", "machine", "owner", "system", "complaint", "words",
		"state", "why", "quoted_minutes", "bench_minutes",
	}, jobRows},
	{"readings", []string{
		"job", "event", "at", "test", "sort", "function", "value", "low", "high", "range", "shown", "choice", "why", "taken_back",
	}, readingRows},
	{"findings", []string{"job", "fault", "title", "first_shown", "event", "before_repair", "at_closing"}, findingRows},
	{"repairs", []string{"job", "event", "at", "repair", "title", "taken_back"}, repairRows},
	{"money", []string{
		"job", "event", "at", "what", "currency", "parts", "labour", "other", "tax", "total", "deposit", "ceiling", "minutes",
		"approved", "who", "taken_back",
	}, moneyRows},
}

// Tables writes jobs as CSV (RFC 4180), each table with a head line. Times are
// RFC 3339, UTC; values are in base units; numbers are bare, and text that a
// spreadsheet would take for a formula is not.
type Tables struct {
	names Names
	to    []*csv.Writer
}

// NewTables begins the tables, one on each writer, in the order of TableNames.
func NewTables(names Names, to []io.Writer) (*Tables, error) {
	t := &Tables{names: names}
	for i, one := range tables {
		out := csv.NewWriter(to[i])
		out.UseCRLF = true
		if err := out.Write(one.columns); err != nil {
			return nil, err
		}
		t.to = append(t.to, out)
	}
	return t, nil
}

// Add writes the rows of one job.
func (t *Tables) Add(l Log) error {
	c := CardOf(l.Job, l.Events)
	for i, one := range tables {
		for _, row := range one.rows(l, c, t.names) {
			if err := t.to[i].Write(row); err != nil {
				return err
			}
		}
	}
	return nil
}

// Flush writes what is left to write.
func (t *Tables) Flush() error {
	var errs []error
	for _, out := range t.to {
		out.Flush()
		errs = append(errs, out.Error())
	}
	return errors.Join(errs...)
}

// text is a cell of text.
func text(s string) string { return source.Cell(s) }
