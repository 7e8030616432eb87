package pricebook

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// cell is one value with where it begins: line and byte from 1.
type cell struct {
	text   string
	line   int
	at     int
	column int // of the table, from 1
}

// table is a CSV file being read.
type table struct {
	money.Reader
	file   *source.File
	starts []int // where each line begins in the text
	comma  rune
	first  int // the line of the heading
	wide   int // how many columns it has; 0: not read yet
}

func newTable(f *source.File) *table {
	t := &table{Reader: money.Reader{Reader: &shape.Reader{File: f}}, file: f, starts: []int{0}}
	for i := range len(f.Text) {
		if f.Text[i] == '\n' {
			t.starts = append(t.starts, i+1)
		}
	}
	t.comma = t.separator()
	return t
}

// line is a line of the file, counted from 1, without its end.
func (t *table) line(n int) string {
	if n < 1 || n > len(t.starts) {
		return ""
	}
	line, _, _ := strings.Cut(t.file.Text[t.starts[n-1]:], "\n")
	return line
}

// place is where a cell stands: the column in characters.
func (t *table) place(c cell) source.Place {
	line := t.line(c.line)
	at := min(max(c.at-1, 0), len(line))
	return t.file.At(c.line, utf8.RuneCountInString(line[:at])+1, max(utf8.RuneCountInString(c.text), 1))
}

func (t *table) report(code source.Code, c cell, message, hint string) {
	t.Report(code, t.place(c), message, hint)
}

// separator is what separates values, told from the first row that holds something:
// by which of the three most of its names are known.
func (t *table) separator() rune {
	best, most := ',', 0
	for n := range t.starts {
		line := t.line(n + 1)
		if strings.TrimSpace(line) == "" {
			continue
		}
		t.first = n + 1
		for _, comma := range ",;\t" {
			r := csv.NewReader(strings.NewReader(line))
			r.Comma = comma
			cells, _ := r.Read()
			count := 0
			for _, c := range cells {
				if known(c) != "" {
					count++
				}
			}
			if count > most {
				best, most = comma, count
			}
		}
		return best
	}
	return best
}

// rows calls take for each row that holds something. A row with broken quotes is
// reported, and reading goes on at the next line.
func (t *table) rows(take func([]cell)) {
	for skipped := 0; skipped < len(t.starts); {
		r := csv.NewReader(strings.NewReader(t.file.Text[t.starts[skipped]:]))
		r.Comma, r.FieldsPerRecord, r.ReuseRecord = t.comma, -1, true
		next := t.until(r, skipped, take)
		if next <= skipped {
			return
		}
		skipped = next
	}
}

// until reads rows up to the first with broken quotes, and says how many lines are
// done with then; 0 at the end.
func (t *table) until(r *csv.Reader, skipped int, take func([]cell)) int {
	var cells []cell
	for {
		record, err := r.Read()
		var broken *csv.ParseError
		switch {
		case errors.Is(err, io.EOF):
			return 0
		case errors.As(err, &broken):
			t.lazily(skipped+broken.StartLine, take)
			return t.broken(broken, skipped)
		}
		cells = placed(cells[:0], r, record, skipped)
		if !blank(cells) {
			take(cells)
		}
	}
}

// placed adds the values of a row to cells.
func placed(cells []cell, r *csv.Reader, record []string, skipped int) []cell {
	for i, text := range record {
		line, at := r.FieldPos(i)
		cells = append(cells, cell{text: text, line: skipped + line, at: at, column: i + 1})
	}
	return cells
}

func blank(cells []cell) bool {
	return !slices.ContainsFunc(cells, func(c cell) bool { return strings.TrimSpace(c.text) != "" })
}

// lazily takes a row with broken quotes for what it seems to say: what else is wrong
// with it is told at once. A row that then has another number of values says nothing.
func (t *table) lazily(line int, take func([]cell)) {
	r := csv.NewReader(strings.NewReader(t.line(line)))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = t.comma, -1, true
	record, err := r.Read()
	if cells := placed(nil, r, record, line-1); err == nil && (t.wide == 0 || len(cells) == t.wide) {
		take(cells)
	}
}

// broken reports quotes that are broken, and gives the number of lines to pass over:
// a quote that was never closed has swallowed lines that are to be read all the same.
func (t *table) broken(err *csv.ParseError, skipped int) int {
	c := cell{line: skipped + err.Line, at: err.Column}
	message, hint := "a quote stands in a value that is not in quotes", `put the whole value in quotes and write the quote twice: "3/8"" bolt"`
	if errors.Is(err.Err, csv.ErrQuote) {
		message, hint = "something follows the quote that ends a value", `a quote inside a value in quotes is written twice: "3/8"" bolt"`
		if at := t.unclosed(t.line(skipped + err.StartLine)); err.Line > err.StartLine || at > 0 {
			c.line, c.at = skipped+err.StartLine, max(at, 1)
			message, hint = "a quote is opened here and not closed properly", "end the value with a quote, before the next separator"
		}
	}
	t.report(CodeQuote, c, message, hint)
	if errors.Is(err.Err, csv.ErrQuote) {
		return skipped + err.StartLine
	}
	return skipped + err.Line
}

// unclosed is where the quote stands, in bytes from 1, that a line leaves open; 0 when
// there is none.
func (t *table) unclosed(line string) int {
	open, start := 0, true
	for i := 0; i < len(line); i++ {
		switch {
		case open == 0 && start && line[i] == '"':
			open = i + 1
		case open > 0 && line[i] == '"' && i+1 < len(line) && line[i+1] == '"':
			i++
		case open > 0 && line[i] == '"':
			open = 0
		}
		start = open == 0 && line[i] == byte(t.comma)
	}
	return open
}
