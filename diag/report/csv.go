package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"benchlead/diag/source"
)

// CSV writes the readings, one answer a line, with a head line. value and
// uncertainty (about 95 %) are bare numbers in unit; the answer as it was shown
// stands beside them. A cell that a spreadsheet would take for a formula gets an
// apostrophe in front.
func CSV(w io.Writer, d Document) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true // RFC 4180
	rows := [][]string{{
		"job", "test", "title", "after", "function", "red", "black", "state", "with",
		"value", "uncertainty", "unit", "shown", "band", "answer", "healthy_from", "healthy_to",
	}}
	for _, r := range d.Readings {
		for _, t := range r.Taken {
			rows = append(rows, []string{
				strconv.FormatInt(d.Job, 10), text(r.Test), text(r.Title), text(t.After), text(r.Function), text(r.Red),
				text(r.Black), text(r.State), text(r.With), t.number, t.uncertainty, text(r.Unit), text(t.Value),
				text(t.Band), text(t.Answer), r.low, r.high,
			})
		}
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("writing CSV: %w", err)
	}
	return nil
}

// text is a cell of text.
func text(s string) string { return source.Cell(s) }
