package screen

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/walk"
)

func (s *step) system() string {
	if s.pos.System == nil {
		return ""
	}
	return s.pos.System.Title
}

// where says what part of the job this is.
func (s *step) where() string {
	switch s.prompt.Stage {
	case walk.AtTest, walk.AtWork:
		return s.tree
	case walk.AtCheck:
		return "proving the repair"
	case walk.AtHandBack:
		return "safety functions"
	}
	return string(s.prompt.Stage)
}

// status is how far the job has got, on one line, and what a countdown that runs has
// left.
func (s *step) status(sty styles, left string, width int) string {
	v := s.pos.Verdict
	var out []string
	for _, f := range v.Found {
		out = append(out, f.Fault.Title)
	}
	found := "Found: nothing yet"
	if len(s.pos.Ticked) > 0 {
		found = "Found since the repair: nothing"
	}
	if len(out) > 0 {
		found = fmt.Sprintf("Found %d%s: %s", len(out), s.doubtCount(), strings.Join(out, "; "))
	}
	counts := fmt.Sprintf("cleared %d", len(v.Cleared))
	before := s.testedBefore()
	if before > 0 {
		counts += fmt.Sprintf(" now, %d before", before)
	}
	if len(v.Masked) > 0 {
		counts += fmt.Sprintf(", masked %d", len(v.Masked))
	}
	counts += fmt.Sprintf(", not tested %d", len(v.Untested)-before)
	if left != "" {
		counts = left + ", " + counts
	}
	line := rule(found, counts, width-16, width)
	if len(v.Found) > 0 {
		return sty.title.Render(line)
	}
	return sty.dim.Render(line)
}

// testedBefore is how many of the untested faults were cleared before the repair.
func (s *step) testedBefore() int {
	n := 0
	for _, u := range s.pos.Verdict.Untested {
		if slices.Contains(s.pos.TestedBefore, u.Fault) {
			n++
		}
	}
	return n
}

// bands is the line of bands of the test that is asked.
func (s *step) bands(sty styles, typed string, width int) []string {
	if s.waiting(strings.TrimSpace(typed)) != nil {
		typed = ""
	}
	return drawBands(s.line(strings.TrimSpace(typed)), sty, width-2)
}

// body draws what is asked now.
func (s *step) body(sty styles, l layout) []string {
	if l.side == 0 {
		return s.narrow(sty, l.width, l.body)
	}
	width := l.width - l.side - 3
	right := s.side(sty, l.side, l.body)
	left := s.blocks(sty, width, whole)
	for tight := again; tight < tights && total(left) > l.body; tight++ {
		left = s.blocks(sty, width, tight)
	}
	return beside(airy(left, l.body), right, width+3)
}

// narrow is the page in one column, with the suspects on its last line where two are
// left. The line stands there so that nothing moves when they become ready.
func (s *step) narrow(sty styles, width, height int) []string {
	page, line := s.column(sty, width, height), s.suspectsLine(width)
	if line == "" || total(page)+2 > height {
		return airy(page, height)
	}
	out := airy(page, height-1)
	out = append(out, make([]string, height-1-len(out))...)
	return append(out, line)
}

// column is the blocks of the page in one column. What was shown before gives way first, then
// the sketch, then what the other tights say.
func (s *step) column(sty styles, width, height int) [][]string {
	sketch := s.sketch(width)
	for t := whole; t <= again; t++ {
		if page := s.blocks(sty, width, t); s.place(page, sketch, sty, width, height) {
			return page
		}
	}
	for t := whole; t <= again; t++ {
		if page := s.blocks(sty, width, t); total(page) <= height {
			return page
		}
	}
	page := s.blocks(sty, width, brief)
	for t := titles; t < tights && total(page) > height; t++ {
		page = s.blocks(sty, width, t)
	}
	s.place(page, sketch, sty, width, height)
	return page
}

// place puts the sketch into the page where it fits: below the leads, beside
// them, or only the rows that have a lead on them. False when there is one and
// it doesn't fit, or the page doesn't.
func (s *step) place(blocks [][]string, sketch []string, sty styles, width, height int) bool {
	used := total(blocks)
	if len(sketch) == 0 || used+len(sketch) <= height {
		blocks[partSketch] = colour(sketch, sty)
		return used+len(sketch) <= height
	}
	if room := width - widest(sketch) - 3; room >= 26 {
		table := beside(s.table(sty, room, again), colour(sketch, sty), room+3)
		if used-len(blocks[partTable])+len(table) <= height {
			blocks[partTable] = table
			return true
		}
	}
	blocks[partSketch] = colour(part(sketch, height-used), sty)
	return len(blocks[partSketch]) > 0
}

// sketch is the system with the leads on it, set in a little; nothing when it
// is too wide, or when no lead is on it.
func (s *step) sketch(width int) []string {
	if s.pos.System == nil || !isAsked(s.prompt.Stage) {
		return nil
	}
	out := drawSketch(s.pos.System.Sketch, s.prompt.RedAt, s.prompt.BlackAt)
	if !marked(out) || widest(out)+4 > width {
		return nil
	}
	for i := range out {
		out[i] = "    " + out[i]
	}
	return out
}

// side is the right column: the sketch, what was read so far, the latest lines of
// it when there is little room, and the suspects where some is left.
func (s *step) side(sty styles, width, height int) []string {
	var out []string
	if s.pos.System != nil {
		sketch := drawSketch(s.pos.System.Sketch, s.prompt.RedAt, s.prompt.BlackAt)
		if widest(sketch) <= width && len(sketch) > 0 {
			out = append(colour(sketch, sty), "")
		}
	}
	var before []string
	for _, b := range s.before {
		before = append(before, hang("  ", b, width)...)
	}
	// The suspects have half of what is left, and more where little was read.
	room := height - len(out)
	list := s.suspectsBeside(sty, width, max(room/2, room-len(before)-2))
	if lately := s.lately(width, room-len(list)-2); len(lately) > 0 {
		out = append(append(out, sty.label.Render("So far")), lately...)
		out = append(out, "")
	}
	return append(out, list...)
}

// lately is what was read last, whole, as much as there is room for.
func (s *step) lately(width, room int) []string {
	var out []string
	for i := len(s.before) - 1; i >= 0; i-- {
		one := hang("  ", s.before[i], width)
		if len(one)+len(out) > room {
			break
		}
		out = append(one, out...)
	}
	return out
}

func total(blocks [][]string) int {
	n := 0
	for _, b := range blocks {
		n += len(b)
	}
	return n
}

// airy joins blocks with empty lines between them, as far as they fit.
func airy(blocks [][]string, height int) []string {
	spare := height - total(blocks)
	var out []string
	for _, b := range blocks {
		if len(b) == 0 {
			continue
		}
		if len(out) > 0 && spare > 0 {
			out = append(out, "")
			spare--
		}
		out = append(out, b...)
	}
	return out
}
