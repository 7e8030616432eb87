package screen

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// estimate is what the owner is asked: the work, the amounts one below the other,
// and what to read on the telephone.
func (s *step) estimate(width int) []string {
	var out []string
	for _, t := range s.prompt.Tell {
		out = append(out, hang("  ", t, width)...)
	}
	out = append(out, "")
	out = append(out, s.amounts(width)...)
	if len(s.prompt.Phone) > 0 {
		out = append(out, "", "Read to the owner:")
	}
	for _, l := range s.prompt.Phone {
		out = append(out, hang("  ", l, width)...)
	}
	return out
}

// amounts are the rows with their amounts at one edge; a currency stands behind it.
func (s *step) amounts(width int) []string {
	text, digits := 0, 0
	for _, r := range s.prompt.Rows {
		number, _, _ := strings.Cut(r.Amount, " ")
		text, digits = max(text, ansi.StringWidth(r.Text)), max(digits, len(number))
	}
	text = max(min(text, width-digits-8), 10)
	var out []string
	for _, r := range s.prompt.Rows {
		number, currency, _ := strings.Cut(r.Amount, " ")
		lines := hang("  ", r.Text, text+2)
		if number != "" {
			last := len(lines) - 1
			lines[last] = strings.TrimRight(pad(lines[last], text+3)+pad("", digits-len(number))+number+" "+currency, " ")
		}
		out = append(out, lines...)
	}
	return out
}
