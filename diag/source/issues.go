package source

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// String is "file:line:column", harmless to print. A place without a line is
// only the file's name.
func (p Place) String() string {
	name := CleanLine(p.File)
	if p.Line == 0 {
		return name
	}
	spot := strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column)
	if name == "" {
		return spot
	}
	return name + ":" + spot
}

// String is the issue on one line, "file:line:column: message [code]",
// harmless to print.
func (i Issue) String() string {
	where := i.Place.String()
	if where != "" {
		where += ": "
	}
	return where + CleanLine(i.Message) + " [" + CleanLine(string(i.Code)) + "]"
}

// Sorted is a copy in the order of file, line, column and code. What was
// reported twice, word for word at one place, is there once.
func (is Issues) Sorted() Issues {
	sorted := slices.Clone(is)
	slices.SortStableFunc(sorted, Issue.compare)
	return slices.CompactFunc(sorted, func(a, b Issue) bool { return a.compare(b) == 0 })
}

func (i Issue) compare(other Issue) int {
	return cmp.Or(
		cmp.Compare(i.Place.File, other.Place.File),
		cmp.Compare(i.Place.Line, other.Place.Line),
		cmp.Compare(i.Place.Column, other.Place.Column),
		cmp.Compare(i.Code, other.Code),
		cmp.Compare(i.Message, other.Message),
	)
}

// Error is every issue, sorted, one a line.
func (is Issues) Error() string {
	var lines []string
	for _, i := range is.Sorted() {
		lines = append(lines, i.String())
	}
	return strings.Join(lines, "\n")
}

// Err is the issues as an error, sorted; nil if there are none.
func (is Issues) Err() error {
	if len(is) == 0 {
		return nil
	}
	return is.Sorted()
}
