package screen

import (
	"fmt"
	"strings"

	"benchlead/diag/walk"
)

// verdict is the verdict in full: the sentence, the ways to go on, what is found
// and by what, and what can't be or was not tested. On a page that must be scrolled the
// ways stand in short before all of it: they are what is chosen from.
func (s *step) verdict(width int, t tight) []string {
	v := s.pos.Verdict
	var out []string
	if t >= brief && len(s.prompt.Ways) > 0 {
		for _, w := range s.prompt.Ways {
			out = append(out, ends("  "+w.Text, w.Amount, width))
		}
		out = append(out, "")
	}
	ways := s.prompt.Tell
	for len(ways) > 0 && !isWay(ways[0]) {
		out = append(out, wrap(ways[0], width)...)
		ways = ways[1:]
	}
	if len(ways) > 0 {
		out = append(out, "")
	}
	for _, w := range ways {
		out = append(out, way(w, width)...)
	}
	if len(v.Found)+len(v.Masked)+len(v.Untested) > 0 {
		out = append(out, "")
	}
	for _, f := range v.Found {
		out = append(out, hang("  found     ", f.Fault.Title+s.doubtMark(f.Fault.ID)+", by "+evidence(f.Evidence), width)...)
	}
	for _, m := range v.Masked {
		out = append(out, hang("  masked    ", m.Fault.Title+", until this is repaired: "+m.By.Title, width)...)
	}
	if n := len(v.Untested); n > 0 {
		out = append(out, hang("  untested  ", fmt.Sprintf("%d; l lists them", n), width)...)
	}
	return out
}

func evidence(list []walk.Evidence) string {
	var out []string
	for _, e := range list {
		out = append(out, fmt.Sprintf("%s (%s)", e.Test.Title, e.Says))
	}
	return strings.Join(out, ", ")
}

// isWay says whether a line begins the numbered ways to go on.
func isWay(line string) bool {
	number, _, ok := strings.Cut(line, "  ")
	return ok && number != "" && strings.Trim(number, "0123456789") == ""
}

// way is one numbered way, or a line that belongs to the one above.
func way(line string, width int) []string {
	if number, text, ok := strings.Cut(line, "  "); ok && isWay(line) {
		return hang(fmt.Sprintf("  %2s  ", number), text, width)
	}
	return wrap("   "+line, width)
}
