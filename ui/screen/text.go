package screen

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/source"
)

// wrap breaks text into lines of at most width cells, made harmless. Spaces in
// front of a line are kept for the lines it breaks into.
func wrap(text string, width int) []string {
	var out []string
	for _, l := range strings.Split(source.Clean(text), "\n") {
		body := strings.TrimLeft(l, " ")
		indent := min(len(l)-len(body), max(width/2, 0))
		out = append(out, hang(strings.Repeat(" ", indent), body, width)...)
	}
	return out
}

// hang breaks text behind a head that stands on its first line; the lines that
// follow are set in as far.
func hang(head, text string, width int) []string {
	room := max(width-ansi.StringWidth(head), 1)
	gap := strings.Repeat(" ", ansi.StringWidth(head))
	var out []string
	for i, l := range strings.Split(joined(ansi.Wrap(unbroken(source.CleanLine(text)), room, "")), "\n") {
		if i == 0 {
			out = append(out, clip(head+l, width))
			continue
		}
		out = append(out, clip(gap+strings.TrimLeft(l, " "), width))
	}
	return out
}

// unbroken keeps a line from being broken behind a hyphen or a minus: where that
// would stand one cell too far, it was lost.
func unbroken(text string) string { return strings.ReplaceAll(text, "-", "\u2011") }

func joined(text string) string { return strings.ReplaceAll(text, "\u2011", "-") }

// clip cuts a line to width cells.
func clip(line string, width int) string {
	return ansi.Truncate(line, max(width, 0), "")
}

// short cuts a text to width cells and shows that it was cut.
func short(text string, width int) string {
	tail := ".."
	if width < 4 {
		tail = ""
	}
	return ansi.Truncate(source.CleanLine(text), max(width, 0), tail)
}

// pad fills a line with spaces up to width cells.
func pad(line string, width int) string {
	return line + strings.Repeat(" ", max(width-ansi.StringWidth(line), 0))
}

// ends puts one text at the left and one at the right end of a line. The left
// one gives way.
func ends(left, right string, width int) string {
	right = short(right, width*2/3)
	if right == "" {
		return short(left, width)
	}
	room := width - ansi.StringWidth(right) - 2
	if room < 1 {
		return short(right, width)
	}
	return pad(short(left, room), room+2) + right
}

// rule is a line across the page with a word at each end, the right one at most
// so many cells wide. The left one gives way.
func rule(left, right string, most, width int) string {
	right = short(right, most)
	left = short(left, width-ansi.StringWidth(right)-12)
	if left != "" {
		left = "-- " + left + " "
	}
	if right != "" {
		right = " " + right + " --"
	}
	fill := width - ansi.StringWidth(left) - ansi.StringWidth(right)
	return clip(left+strings.Repeat("-", max(fill, 0))+right, width)
}

// paint styles each line.
func paint(style lipgloss.Style, lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = style.Render(l)
	}
	return out
}

// beside puts two columns next to each other, the left one width cells wide.
func beside(left, right []string, width int) []string {
	var out []string
	for i := range max(len(left), len(right)) {
		var l, r string
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		if r != "" {
			l = pad(l, width)
		}
		out = append(out, l+r)
	}
	return out
}

// widest is the width of the widest line.
func widest(lines []string) int {
	w := 0
	for _, l := range lines {
		w = max(w, ansi.StringWidth(l))
	}
	return w
}

// sentence is an error with a capital and a full stop.
func sentence(err error) string {
	text := strings.TrimSuffix(err.Error(), ".")
	if text == "" {
		return ""
	}
	first := []rune(text)[0]
	return strings.ToUpper(string(first)) + text[len(string(first)):] + "."
}
