package line

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// wrap breaks text at spaces so that no line is wider than width cells; with a
// width of 0 only at its line ends.
func wrap(text string, width int) []string {
	lines := strings.Split(text, "\n")
	if width <= 0 {
		return lines
	}
	var out []string
	for _, l := range lines {
		// Not behind a hyphen or a minus: where that would stand one cell too far, it
		// was lost.
		whole := strings.ReplaceAll(l, "-", "\u2011")
		for _, part := range strings.Split(strings.ReplaceAll(ansi.Wrap(whole, width, ""), "\u2011", "-"), "\n") {
			out = append(out, strings.Trim(part, " "))
		}
	}
	return out
}
