package line

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// wrap breaks text at spaces so that no line is wider than width cells. Lines
// after the first are set in as far as the first is.
func wrap(text string, width int) []string {
	var out []string
	for _, l := range strings.Split(text, "\n") {
		lead := l[:len(l)-len(strings.TrimLeft(l, " "))]
		// Not behind a hyphen or a minus: where that would stand one cell too far, it
		// was lost.
		whole := strings.ReplaceAll(strings.TrimLeft(l, " "), "-", "\u2011")
		for i, part := range strings.Split(strings.ReplaceAll(ansi.Wrap(whole, width-len(lead), ""), "\u2011", "-"), "\n") {
			if i > 0 {
				part = strings.TrimLeft(part, " ")
			}
			out = append(out, lead+part)
		}
	}
	return out
}
