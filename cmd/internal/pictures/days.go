//go:build !windows

package main

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"github.com/charmbracelet/x/vt"
)

// The form of a day on the screen. A space before it may be needed: days of the month
// have one digit or two.
const dayForm = "2 Jan 2006"

var days = regexp.MustCompile(`\b\d{1,2} (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d{4}\b`)

// moveDays puts other days in the place of those on the screen, so that a picture is
// the same whenever it is made. What stood right of a day stays where it was.
func moveDays(screen *vt.Emulator, by int) {
	for y := range screen.Height() {
		row := row(screen, y)
		for _, at := range days.FindAllStringIndex(row, -1) {
			day, err := time.Parse(dayForm, row[at[0]:at[1]])
			if err != nil {
				continue // 31 Feb
			}
			moved := day.AddDate(0, 0, by).Format(dayForm)
			from := at[1] - max(len(moved), at[1]-at[0])
			if from < at[0] && (from < 1 || strings.TrimSpace(row[from-1:at[0]]) != "") {
				continue // no room
			}
			for i, c := range fmt.Sprintf("%*s", at[1]-from, moved) {
				cell := screen.CellAt(at[0], y).Clone()
				cell.Content = string(c)
				screen.SetCell(from+i, y, cell)
			}
		}
	}
}

// row is a line of the screen with one byte a column: what is no ASCII is a point.
func row(screen *vt.Emulator, y int) string {
	out := make([]byte, screen.Width())
	for x := range out {
		out[x] = ' '
		if cell := screen.CellAt(x, y); cell != nil && cell.Content != "" && cell.Content != " " {
			out[x] = '.'
			if len(cell.Content) == 1 {
				out[x] = cell.Content[0]
			}
		}
	}
	return string(out)
}
