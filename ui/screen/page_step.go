package screen

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

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

// status is how far the job has got, on one line.
func (s *step) status(sty styles, width int) string {
	v := s.pos.Verdict
	var out []string
	for _, f := range v.Found {
		out = append(out, f.Fault.Title)
	}
	found := "Found: nothing yet"
	if len(out) > 0 {
		found = fmt.Sprintf("Found %d: %s", len(out), strings.Join(out, "; "))
	}
	counts := fmt.Sprintf("cleared %d", len(v.Cleared))
	if len(v.Masked) > 0 {
		counts += fmt.Sprintf(", masked %d", len(v.Masked))
	}
	counts += fmt.Sprintf(", not tested %d", len(v.Untested))
	line := rule(found, counts, width-16, width)
	if len(v.Found) > 0 {
		return sty.title.Render(line)
	}
	return sty.dim.Render(line)
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
	left := s.blocks(sty, width, true, func(string) bool { return false })
	if total(left) > l.body {
		left = s.blocks(sty, width, false, func(c string) bool { return s.cared[c] })
	}
	return beside(airy(left, l.body), right, width+3)
}

// The parts of the page in order.
const (
	partHead = iota
	partCare
	partTell
	partBefore
	partTable
	partSketch
	partChoices
	parts
)

// blocks are the parts of the page but the sketch: what it is, cautions, what
// to do, what was read before, where the leads go and what a good machine
// reads, what can be seen.
func (s *step) blocks(sty styles, width int, full bool, shorten func(string) bool) [][]string {
	p := s.prompt
	out := make([][]string, parts)
	head := paint(sty.title, wrap(p.Title, max(width-ansi.StringWidth(p.Cost)-2, 20)))
	if len(head) > 0 && p.Cost != "" {
		head[0] = pad(head[0], width-ansi.StringWidth(p.Cost)) + p.Cost
	}
	if p.Stage == walk.AtDanger {
		head = paint(sty.stop, wrap(p.Title, width))
	}
	out[partHead] = head
	for _, c := range p.Caution {
		if shorten(c) {
			c = brief(c, width-2)
		}
		out[partCare] = append(out[partCare], paint(sty.care, hang("! ", c, width))...)
	}
	out[partTell], out[partBefore] = s.tell(width), s.earlier(width)
	out[partTable], out[partChoices] = s.table(sty, width, full), s.choices(sty, width)
	return out
}

// cautions are the step's cautions in full.
func (s *step) cautions() []string {
	var out []string
	for _, c := range s.prompt.Caution {
		out = append(out, "! "+c)
	}
	return out
}

// brief is the hazard and as much of what to do about it as one line holds. The
// view of why has all of it.
func brief(c string, width int) string {
	const all = " (? for all)"
	if ansi.StringWidth(c) <= width {
		return c
	}
	out := ""
	for _, sentence := range strings.SplitAfter(c, ". ") {
		if ansi.StringWidth(out+sentence) > width-len(all)+1 {
			break
		}
		out += sentence
	}
	if out == "" {
		out = short(c, width-len(all))
	}
	return strings.TrimSpace(out) + all
}

// tell is what to do, numbered when it is more than one thing.
func (s *step) tell(width int) []string {
	var out []string
	lines := s.prompt.Tell
	if s.prompt.Stage == walk.AtVerdict {
		return s.verdict(width)
	}
	for i, t := range lines {
		head := "  "
		switch {
		case s.prompt.Stage == walk.AtSafe:
			head = "  [ ] "
		case isAsked(s.prompt.Stage) && len(lines) > 1:
			head = fmt.Sprintf("  %d. ", i+1)
		default:
			number, text := numbered(t)
			head, t = head+number, text
		}
		out = append(out, hang(head, t, width)...)
	}
	return out
}

// numbered parts a line that has its own number.
func numbered(line string) (number, text string) {
	head, rest, ok := strings.Cut(line, ". ")
	if ok && head != "" && strings.Trim(head, "0123456789") == "" {
		return head + ". ", rest
	}
	return "", line
}

// earlier is what the same test read before the work or the repair.
func (s *step) earlier(width int) []string {
	var out []string
	for _, b := range s.prompt.SoFar {
		out = append(out, hang("  ", b, width)...)
	}
	return out
}

// table is the leads, the meter, the machine and what is healthy.
func (s *step) table(sty styles, width int, full bool) []string {
	p := s.prompt
	var out []string
	row := func(sign, word, text string) {
		if text != "" {
			out = append(out, hang(sign+pad(sty.label.Render(word), 9), text, width)...)
		}
	}
	red, black, cover := sameCover(p.Red, p.Black)
	row(sty.red.Render(redMark)+" ", "red", red)
	row(sty.black.Render(blackMark)+" ", "black", black)
	row("    ", "behind", cover)
	if both := 36; p.Meter != "" && p.Machine != "" && len(p.Meter) < both-14 && 13+both+len(p.Machine) <= width {
		row("    ", "meter", pad(p.Meter, both-9)+sty.label.Render("machine")+"  "+p.Machine)
	} else {
		row("    ", "meter", p.Meter)
		row("    ", "machine", p.Machine)
	}
	row("    ", "healthy", p.Healthy)
	if full {
		row("    ", "alone", p.Alone)
	}
	return out
}

// sameCover takes what has to come off out of both points when it is the same
// for both.
func sameCover(red, black string) (string, string, string) {
	a, cover, ok := strings.Cut(red, " (behind: ")
	b, other, also := strings.Cut(black, " (behind: ")
	if !ok || !also || cover != other {
		return red, black, ""
	}
	return a, b, strings.TrimSuffix(cover, ")")
}

// choices is the numbered list of what can be seen.
func (s *step) choices(sty styles, width int) []string {
	var out []string
	for _, c := range s.prompt.Choices {
		out = append(out, choice(c, sty, width)...)
	}
	return out
}

// choice is one line of a numbered list.
func choice(c string, sty styles, width int) []string {
	number, text, _ := strings.Cut(c, " ")
	return hang("  "+pad("", 2-len(number))+sty.key.Render(number)+"  ", text, width)
}

// narrow is the page in one column. What was shown before gives way first:
// cautions that stood in full on an earlier step, then the sketch, then the
// text of every caution, which the view of why has.
func (s *step) narrow(sty styles, width, height int) []string {
	whole := s.blocks(sty, width, true, func(string) bool { return false })
	again := s.blocks(sty, width, false, func(c string) bool { return s.cared[c] })
	least := s.blocks(sty, width, false, func(string) bool { return true })
	sketch := s.sketch(width)
	for _, try := range [][][]string{whole, again} {
		if s.place(try, sketch, sty, width, height) {
			return airy(try, height)
		}
	}
	for _, try := range [][][]string{whole, again} {
		if total(try) <= height {
			return airy(try, height)
		}
	}
	s.place(least, sketch, sty, width, height)
	return airy(least, height)
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
		table := beside(s.table(sty, room, false), colour(sketch, sty), room+3)
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

// side is the right column: the sketch, and what was read so far, the latest
// lines of it when there is little room.
func (s *step) side(sty styles, width, height int) []string {
	var out []string
	if s.pos.System != nil {
		sketch := drawSketch(s.pos.System.Sketch, s.prompt.RedAt, s.prompt.BlackAt)
		if widest(sketch) <= width && len(sketch) > 0 {
			out = append(colour(sketch, sty), "")
		}
	}
	var list []string
	for _, b := range s.before {
		list = append(list, hang("  ", b, width)...)
	}
	room := height - len(out) - 1
	if len(list) == 0 || room < 2 {
		return out
	}
	out = append(out, sty.label.Render("So far"))
	return append(out, list[max(len(list)-room, 0):]...)
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
