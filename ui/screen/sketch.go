package screen

import (
	"strings"

	"benchlead/diag/tree"
)

// The signs of a sketch, each as wide as a mark in the file.
const (
	redMark   = "[R]"
	blackMark = "[B]"
)

// drawSketch draws the system with the two leads on it. Other points are a
// small o in the wire.
func drawSketch(s tree.Sketch, red, black string) []string {
	var out []string
	for _, l := range s.Lines {
		out = append(out, strings.TrimRight(drawMarks(l, s.Marks, red, black), " "))
	}
	return out
}

func drawMarks(line string, marks map[string]string, red, black string) string {
	var out strings.Builder
	for line != "" {
		before, rest, found := strings.Cut(line, "{")
		out.WriteString(before)
		if !found {
			break
		}
		name, after, closed := strings.Cut(rest, "}")
		if !closed {
			out.WriteString("{" + rest)
			break
		}
		out.WriteString(mark(marks[name], red, black, before, after))
		line = after
	}
	return out.String()
}

// mark is what stands for a point: a lead, or an o that the wire runs through.
func mark(point, red, black, before, after string) string {
	switch {
	case point != "" && point == red:
		return redMark
	case point != "" && point == black:
		return blackMark
	}
	left, right := ' ', ' '
	if before != "" {
		left = wire(rune(before[len(before)-1]))
	}
	if after != "" {
		right = wire(rune(after[0]))
	}
	return string(left) + "o" + string(right)
}

// wire goes on with the line that a point stands in.
func wire(next rune) rune {
	switch next {
	case '-', '=':
		return next
	case '\'', '.':
		return '-'
	}
	return ' '
}

// marked says whether a lead is on a sketch.
func marked(lines []string) bool {
	for _, l := range lines {
		if strings.Contains(l, redMark) || strings.Contains(l, blackMark) {
			return true
		}
	}
	return false
}

// leastSketch is how many rows of a sketch say where they are: one row is only dashes.
const leastSketch = 3

// part is the rows of a sketch from the first lead to the last, with what room
// allows around them; nil when not even those fit.
func part(lines []string, room int) []string {
	first, last := -1, -1
	for i, l := range lines {
		if strings.Contains(l, redMark) || strings.Contains(l, blackMark) {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 || last-first+1 > room || room < min(leastSketch, len(lines)) {
		return nil
	}
	for last-first+1 < min(room, len(lines)) {
		if last < len(lines)-1 {
			last++
		} else {
			first--
		}
	}
	return lines[first : last+1]
}

// colour paints the leads of a sketch.
func colour(lines []string, sty styles) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		l = strings.ReplaceAll(l, redMark, sty.red.Render(redMark))
		out[i] = strings.ReplaceAll(l, blackMark, sty.black.Render(blackMark))
	}
	return out
}
