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
		for i, part := range strings.Split(ansi.Wrap(strings.TrimLeft(l, " "), width-len(lead), ""), "\n") {
			if i > 0 {
				part = strings.TrimLeft(part, " ")
			}
			out = append(out, lead+part)
		}
	}
	return out
}
