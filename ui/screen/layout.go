package screen

import "fmt"

// The smallest window that can be worked in.
const (
	leastWidth  = 50
	leastHeight = 14
)

// The size taken for granted until the terminal has said its own.
const (
	usualWidth  = 80
	usualHeight = 24
)

// layout is how the height and width of a window are shared out. From the top:
// head, rule, body, rule, foot (what was said, the line of bands), input, keys.
// The input and what belongs to it stay in one place whatever is above.
type layout struct {
	width, height int
	body          int // lines
	foot          int // lines between the second rule and the input
	side          int // width of the right column; 0 without one
}

// fixed lines of a page: head, two rules, input, keys.
const fixed = 5

// share lays a window out for a foot of so many lines. The foot never takes
// more than half of what the body and it have together.
func share(width, height, foot int) layout {
	l := layout{width: width, height: height}
	room := height - fixed
	l.foot = min(foot, max(room*3/5, 0))
	l.body = max(room-l.foot, 0)
	if width >= 104 && height >= 24 {
		l.side = min(width*45/100, 56)
	}
	return l
}

// tooSmall says whether nothing useful fits.
func tooSmall(width, height int) bool { return width < leastWidth || height < leastHeight }

// window is the part of lines that can be seen from a place, exactly height
// lines, and the place after it was kept in bounds. When lines are hidden below
// or above, the last line says so.
func window(lines []string, from, height int) (seen []string, at int) {
	if height <= 0 {
		return nil, 0
	}
	if len(lines) <= height {
		return append(lines[:len(lines):len(lines)], make([]string, height-len(lines))...), 0
	}
	room := height - 1
	at = min(max(from, 0), len(lines)-room)
	seen = append(seen, lines[at:at+room]...)
	return append(seen, more(at, len(lines)-at-room)), at
}

// pageOf is how far a page further goes in a window so high: one line of those
// that can be seen, less the one that says there is more, stays.
func pageOf(height int) int { return max(height-2, 1) }

// moreMark begins the line that says that lines are hidden.
const moreMark = "-- more "

// more says how many lines are hidden.
func more(above, below int) string {
	switch {
	case above > 0 && below > 0:
		return fmt.Sprintf(moreMark+"above (%d) and below (%d): PgUp PgDn --", above, below) // the narrowest window has just this much room
	case above > 0:
		return fmt.Sprintf(moreMark+"above (%s): PgUp --", count(above))
	}
	return fmt.Sprintf(moreMark+"below (%s): PgDn --", count(below))
}

func count(lines int) string {
	if lines == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", lines)
}
