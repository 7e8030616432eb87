package prove

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"benchlead/diag/source"
)

// The codes of what ReadTable refuses. They never change.
const (
	CodeTableHead   source.Code = "proof-table-head"
	CodeTableRow    source.Code = "proof-table-row"
	CodeTableFigure source.Code = "proof-table-figure"
	CodeTableTwice  source.Code = "proof-table-twice"
)

// howToMend ends every complaint about a table.
const howToMend = `write the file anew with "benchlead prove --store FILE", or take it back from the history`

// ReadTable reads what WriteTable wrote. With any issue the table is not to be
// used.
func ReadTable(file source.File) (Table, source.Issues) {
	r := &tableReader{file: file, seen: map[Row]int{}}
	for text := range strings.SplitSeq(file.Text, "\n") {
		r.number++
		words := wordsOf(text)
		switch {
		case len(words) == 0 || strings.HasPrefix(words[0].text, "#"):
		case r.inRows:
			r.row(words)
		default:
			r.head(words)
		}
	}
	if len(r.issues) == 0 {
		r.whole()
	}
	slices.SortFunc(r.table.Rows, Row.compare)
	return r.table, r.issues
}

// tableReader is a table half read.
type tableReader struct {
	file   source.File
	number int // of the line, from 1
	table  Table
	inRows bool        // the line of columns was passed
	seen   map[Row]int // names only, with their line
	seeded bool
	issues source.Issues
}

// word is a word of a line, and the character it begins at, from 1.
type word struct {
	text   string
	column int
}

func wordsOf(line string) []word {
	var out []word
	column, begin, inside := 0, 0, false
	for i, c := range line {
		column++
		if unicode.IsSpace(c) {
			inside = false
			continue
		}
		if !inside {
			out, begin, inside = append(out, word{column: column}), i, true
		}
		out[len(out)-1].text = line[begin : i+utf8.RuneLen(c)]
	}
	return out
}

func (r *tableReader) issue(code source.Code, at word, format string, args ...any) {
	r.issues = append(r.issues, source.Issue{
		Code: code, Place: r.file.At(r.number, at.column, utf8.RuneCountInString(at.text)),
		Message: fmt.Sprintf(format, args...), Hint: howToMend,
	})
}

// head reads one of the lines before the rows: draws, seed, the columns.
func (r *tableReader) head(words []word) {
	switch first := words[0]; {
	case slices.EqualFunc(words, columns, func(w word, c string) bool { return w.text == c }):
		r.inRows = true
	case first.text == "draws" && len(words) == 2:
		r.table.Draws = r.figure(words[1], 1)
	case first.text == "seed" && len(words) == 2:
		seed, err := strconv.ParseUint(words[1].text, 10, 64)
		if err != nil {
			r.issue(CodeTableFigure, words[1], "the seed is a whole number from 0 to %d, not %q", uint64(math.MaxUint64), words[1].text)
		}
		r.table.Seed, r.seeded = seed, true
	default:
		r.issue(CodeTableHead, first, "before the rows stand \"draws NUMBER\", \"seed NUMBER\" and the line %q", strings.Join(columns, " "))
	}
}

// row reads what came of one fault. The name of a fault may have spaces in it.
func (r *tableReader) row(words []word) {
	names := len(words) - (len(columns) - 3)
	if names < 3 {
		r.issue(CodeTableRow, words[0], "a row has a tree, a system, a fault and %d figures", len(columns)-3)
		return
	}
	var fault []string
	for i, w := range words[:names] {
		if source.CleanLine(w.text) != w.text {
			r.issue(CodeTableRow, w, "the name has characters that can't be shown")
			return
		}
		if i >= 2 {
			fault = append(fault, w.text)
		}
	}
	row := Row{Tree: words[0].text, System: words[1].text, Fault: strings.Join(fault, " ")}
	if line := r.seen[row]; line > 0 {
		r.issue(CodeTableTwice, words[0], "%s in %s stands in line %d already", row.Fault, row.Tree, line)
		return
	}
	r.seen[row] = r.number
	counts := row.Counts.figures()
	for i, n := range counts {
		*n = r.figure(words[names+i], 0)
	}
	row.Minutes, row.Left = r.mean(words[names+len(counts)], minutePlaces), r.mean(words[names+len(counts)+1], leftPlaces)
	if c := row.Counts; c.Found+c.Group+c.Close+c.Masked+c.Missed+c.Wrong > c.Draws {
		r.issue(CodeTableFigure, words[names], "the figures add up to more than the draws")
	}
	r.table.Rows = append(r.table.Rows, row)
}

// figure reads a whole number of machines.
func (r *tableReader) figure(w word, least int) int {
	n, err := strconv.Atoi(w.text)
	if err != nil || n < least || n > MaxDraws {
		r.issue(CodeTableFigure, w, "a number of machines is a whole number from %d to %d, not %q", least, MaxDraws, w.text)
		return 0
	}
	return n
}

// mean reads an average, to so many places.
func (r *tableReader) mean(w word, places int) float64 {
	const most = 1e6
	v, err := strconv.ParseFloat(w.text, 64)
	if err != nil || !(v >= 0 && v <= most) {
		r.issue(CodeTableFigure, w, "an average is a number from 0 to %g, not %q", most, w.text)
		return 0
	}
	return rounded(v, places)
}

// whole says what a table that has only right lines lacks.
func (r *tableReader) whole() {
	end := word{column: 1}
	switch {
	case r.table.Draws == 0:
		r.issue(CodeTableHead, end, "the file does not say how many draws it was made with")
	case !r.seeded:
		r.issue(CodeTableHead, end, "the file does not say which seed it was made with")
	case len(r.table.Rows) == 0:
		r.issue(CodeTableHead, end, "the file has no rows")
	}
}
