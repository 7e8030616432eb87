package shape

import (
	"fmt"
	"strings"

	"benchlead/diag/source"
)

// begins is a column at which something stands that later lines may go on with: a
// key, or the "-" of a list.
type begins struct {
	spaces, line int
	dash         bool
}

// indented says what is wrong with how far the line is indented, by the lines above
// it: "" when it goes with one of them.
func indented(file *source.File, number int) (place source.Place, message, hint string) {
	lines := strings.Split(file.Text, "\n")
	if number < 1 || number > len(lines) {
		return place, "", ""
	}
	open := openAbove(lines[:number-1])
	spaces, text := cutIndent(lines[number-1])
	if text == "" || len(open) == 0 {
		return place, "", ""
	}
	place = file.At(number, spaces+1, 0)
	dash := isDash(text)
	for i := len(open) - 1; i >= 0; i-- {
		at := open[i]
		switch {
		case at.spaces != spaces:
		case at.dash && !dash:
			return place, fmt.Sprintf(`this line begins where the "-" of line %d stands, without one`, at.line),
				fmt.Sprintf(`indent it with %d spaces to go on with that item, or begin it with "- " for another`, spaces+2)
		case !at.dash && dash:
			return place, fmt.Sprintf(`a "-" stands here where the keys of line %d go on`, at.line), dashHint(open[:i], at)
		default:
			return place, "", ""
		}
	}
	return place, fmt.Sprintf("this line is indented with %s, and no line above that it can go on with is", spacesSaid(spaces)), nearHint(open, spaces)
}

func dashHint(open []begins, key begins) string {
	for i := len(open) - 1; i >= 0; i-- {
		if open[i].dash {
			return fmt.Sprintf(`for another item put the "-" under that of line %d, with %s`, open[i].line, spacesSaid(open[i].spaces))
		}
	}
	return `take the "-" away, or let the line above it end with ":" and nothing behind`
}

// nearHint names the columns next to the one that is wrong.
func nearHint(open []begins, spaces int) string {
	var less, more *begins
	for i := range open {
		at := &open[i]
		if at.spaces < spaces && (less == nil || at.spaces >= less.spaces) {
			less = at
		}
		if at.spaces > spaces && (more == nil || at.spaces < more.spaces) {
			more = at
		}
	}
	var ways []string
	for _, at := range []*begins{less, more} {
		if at != nil {
			ways = append(ways, fmt.Sprintf("%s, as line %d", spacesSaid(at.spaces), at.line))
		}
	}
	return "indent it with " + strings.Join(ways, ", or with ")
}

func spacesSaid(n int) string {
	if n == 1 {
		return "1 space"
	}
	return fmt.Sprintf("%d spaces", n)
}

// openAbove is what the lines leave open for the next one, from the left.
func openAbove(lines []string) []begins {
	var open []begins
	block, brackets := -1, 0
	for i, line := range lines {
		spaces, text := cutIndent(line)
		switch {
		case text == "" || text[0] == '#' || block >= 0 && spaces > block:
			continue
		case brackets > 0:
			brackets = max(0, brackets+bracketsIn(text))
			continue
		case strings.HasPrefix(line, "---"):
			open = nil
			continue
		}
		block = -1
		for len(open) > 0 && open[len(open)-1].spaces >= spaces {
			open = open[:len(open)-1]
		}
		for isDash(text) {
			open = append(open, begins{spaces, i + 1, true})
			inner, rest := cutIndent(text[1:])
			spaces, text = spaces+1+inner, rest
		}
		if isKey(text) {
			open = append(open, begins{spaces, i + 1, false})
		}
		if last := strings.TrimRight(text, "+-0123456789"); strings.HasSuffix(last, ": |") || strings.HasSuffix(last, ": >") {
			block = spaces
		}
		brackets = max(0, bracketsIn(text))
	}
	return open
}

func cutIndent(line string) (spaces int, text string) {
	text = strings.TrimLeft(line, " ")
	return len(line) - len(text), strings.TrimRight(text, " \t\r")
}

func isDash(text string) bool { return text == "-" || strings.HasPrefix(text, "- ") }

// isKey says whether a text begins with a key.
func isKey(text string) bool {
	if text == "" || strings.ContainsRune(`{["'`, rune(text[0])) {
		return false
	}
	return strings.HasSuffix(text, ":") || strings.Contains(text, ": ")
}

// bracketsIn is how many more brackets are opened than closed, those in quotes left out.
func bracketsIn(text string) int {
	depth := 0
	walkQuotes(text, func(_ int, r rune) {
		switch r {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		}
	})
	return depth
}
