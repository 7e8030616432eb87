package source

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

const (
	window  = 100 // columns of the source line that are shown
	before  = 50  // of them, at most so many before the spot
	tabStop = 4
	cutMark = "..."
	indent  = "    "
)

// Render is the issue for a person: the place and message, the source line
// with a caret line under the spot, and the hint. Lines are ended by "\n". A
// nil file, or a place outside it, leaves the source line out. Everything is
// harmless to print.
func (i Issue) Render(f *File) string {
	var b strings.Builder
	b.WriteString(i.String() + "\n")
	if f != nil && i.Place.Line > 0 {
		b.WriteString(excerpt(f.Line(i.Place.Line), i.Place))
	}
	if i.Hint != "" {
		b.WriteString("  hint: " + CleanLine(i.Hint) + "\n")
	}
	return b.String()
}

// excerpt is the source line and the caret line under it.
func excerpt(line string, p Place) string {
	if strings.TrimSpace(line) == "" {
		return ""
	}
	cells := cellsOf(line)
	spot := min(max(p.Column-1, 0), len(cells))
	from, to := around(cells, spot)
	end := min(max(p.Column-1+max(p.Length, 1), spot), to)
	lead, shown, trail := join(cells[from:spot]), join(cells[from:to]), ""
	if from > 0 {
		lead, shown = cutMark+lead, cutMark+shown
	}
	if to < len(cells) {
		trail = cutMark
	}
	carets := max(ansi.StringWidth(join(cells[spot:end])), 1)
	return indent + strings.TrimRight(shown+trail, " ") + "\n" +
		indent + strings.Repeat(" ", ansi.StringWidth(lead)) + strings.Repeat("^", carets) + "\n"
}

// cellsOf is what is shown for each character of the line. Tabs become spaces
// up to the next stop; what a terminal would act on becomes U+FFFD, so that the
// columns still count right.
func cellsOf(line string) []string {
	var cells []string
	column := 0
	for _, r := range line {
		cell := string(r)
		switch {
		case r == '\t':
			cell = strings.Repeat(" ", tabStop-column%tabStop)
		case harmful(r):
			cell = "\uFFFD"
		}
		cells = append(cells, cell)
		column += ansi.StringWidth(cell)
	}
	return cells
}

// around chooses which cells to show: all of them if they fit, otherwise some
// before the spot and the rest of the window after it.
func around(cells []string, spot int) (from, to int) {
	if ansi.StringWidth(join(cells)) <= window {
		return 0, len(cells)
	}
	used := 0
	for from = spot; from > 0; from-- {
		used += ansi.StringWidth(cells[from-1])
		if used > before {
			break
		}
	}
	for to = spot; to < len(cells); to++ {
		used += ansi.StringWidth(cells[to])
		if used > window {
			break
		}
	}
	return from, to
}

func join(cells []string) string { return strings.Join(cells, "") }
