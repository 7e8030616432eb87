package screen

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/walk"
)

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

// tight is how much of a page gives way where there is little room, the least
// needed first. All of it can be read in the view of why, or stands in what to
// do.
type tight int

const (
	whole    tight = iota // nothing
	again                 // the text of cautions that stood in full on an earlier step; the way to do it alone
	brief                 // the text of every caution
	titles                // all of the cautions but what they are
	bare                  // more than a line of the state of the machine and of what is healthy
	together              // words behind what is healthy, for the machine to stand there; cautions in a line
	leads                 // the place of what to do: behind the leads, the meter and what is healthy
	tights
)

// blocks are the parts of the page but the sketch: what it is, cautions, what
// to do, what was read before, where the leads go and what a good machine
// reads, what can be seen.
func (s *step) blocks(sty styles, width int, t tight) [][]string {
	p := s.prompt
	out := make([][]string, parts)
	head := paint(sty.title, wrap(p.Title, max(width-ansi.StringWidth(p.Cost)-2, 20)))
	if len(head) > 0 && p.Cost != "" {
		head[0] = pad(head[0], width-ansi.StringWidth(p.Cost)) + p.Cost
	}
	if p.Stage == walk.AtDanger {
		head = paint(sty.danger, wrap(p.Title, width))
	}
	out[partHead] = head
	out[partCare] = paint(sty.care, s.care(width, t))
	out[partTell], out[partBefore] = s.tell(width, t), s.earlier(width)
	if s.ticked() {
		out[partTell] = s.checklist(sty, width, t)
	}
	out[partTable], out[partChoices] = s.table(sty, width, t), s.choices(sty, width)
	if t >= leads { // what to do is what must be scrolled for
		out[partCare], out[partTable] = append(out[partCare], out[partTable]...), nil
	}
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

// care is the cautions of the step, as long as there is room for.
func (s *step) care(width int, t tight) []string {
	var out, names []string
	full := s.prompt.Stage == walk.AtDanger || s.prompt.Care
	if s.prompt.Stage == walk.AtRepair && !full {
		t = titles // they were read and confirmed
	}
	for _, c := range s.prompt.Caution {
		title, what, _ := strings.Cut(c, ". ")
		if s.prompt.Stage == walk.AtDanger && strings.HasSuffix(s.prompt.Title, title) && what != "" {
			c = what // the heading has named it
		}
		names = append(names, title)
		if !full && (t >= brief || t >= again && s.cared[c]) {
			c = oneLine(c, width-2)
		}
		out = append(out, hang("! ", c, width)...)
	}
	if !full && t >= together && len(names) > 1 {
		return []string{"! " + short(strings.Join(names, ". "), width-2-len(forAll)) + forAll}
	}
	if !full && t >= titles && len(names) > 1 {
		return hang("! ", strings.Join(names, ". ")+"."+forAll, width)
	}
	return out
}

// forAll says where the rest of a caution stands.
const forAll = " (? for all)"

// oneLine is the hazard and as much of what to do about it as one line holds.
func oneLine(c string, width int) string {
	if ansi.StringWidth(c) <= width {
		return c
	}
	out := ""
	for _, sentence := range strings.SplitAfter(c, ". ") {
		if ansi.StringWidth(out+sentence) > width-len(forAll)+1 {
			break
		}
		out += sentence
	}
	if out == "" {
		out = short(c, width-len(forAll))
	}
	return strings.TrimSpace(out) + forAll
}

// tell is what to do, numbered when it is more than one thing.
func (s *step) tell(width int, t tight) []string {
	var out []string
	lines := s.prompt.Tell
	switch s.prompt.Stage {
	case walk.AtVerdict:
		return s.verdict(width, t)
	case walk.AtEstimate:
		return s.estimate(width)
	}
	for i, text := range lines {
		head := "  "
		switch {
		case s.prompt.Stage == walk.AtSafe:
			head = "  [ ] "
		case isAsked(s.prompt.Stage) && len(lines) > 1:
			head = fmt.Sprintf("  %d. ", i+1)
		default:
			number, rest := numbered(text)
			head, text = head+number, rest
		}
		out = append(out, hang(head, text, width)...)
	}
	return out
}

// numbered parts a line that has its own number or box.
func numbered(line string) (number, text string) {
	if text, ok := strings.CutPrefix(line, "[ ] "); ok {
		return "[ ] ", text
	}
	head, rest, ok := strings.Cut(line, ". ")
	if ok && head != "" && strings.Trim(head, "0123456789") == "" {
		return head + ". ", rest
	}
	return "", line
}

// earlier is what the same test read before the work or the repair.
func (s *step) earlier(width int) []string {
	if b := s.line(""); b != nil && b.WasSays != "" {
		return nil // it stands on the line of bands
	}
	var out []string
	for _, b := range s.prompt.SoFar {
		out = append(out, hang("  ", b, width)...)
	}
	return out
}

// table is the leads, the meter, the machine and what is healthy.
func (s *step) table(sty styles, width int, t tight) []string {
	p := s.prompt
	var out []string
	row := func(sign, word, text string) {
		look := sty.label
		if sign != "    " {
			look = sty.plain // no word for a colour in another colour
		}
		if text != "" {
			out = append(out, hang(sign+pad(look.Render(word), 9), text, width)...)
		}
	}
	red, black, cover := sameCover(p.Red, p.Black)
	if t >= together { // what has to come off is cut first
		red, black = uncovered(red, width-13), uncovered(black, width-13)
	}
	row(sty.red.Render(redMark)+" ", "red", red)
	row(sty.black.Render(blackMark)+" ", "black", black)
	row("    ", "behind", cover)
	one := func(text string) string { return short(text, width-13) }
	machine, healthy, both := p.Machine, p.Healthy, 36
	if t >= bare { // a line each, and one for both where they fit
		machine, healthy, both = one(machine), one(healthy), min(both, len(p.Meter)+12)
	}
	limits, _, _ := strings.Cut(healthy, ": ")
	beside := width - 13 - len(limits) - 11 // cells for the machine behind what is healthy
	switch {
	case p.Meter != "" && machine != "" && len(p.Meter) < both-11 && 13+both+len(machine) <= width:
		row("    ", "meter", pad(p.Meter, both-9)+sty.label.Render("machine")+"  "+machine)
		row("    ", "healthy", healthy)
	case t >= together && machine != "" && healthy != "" && beside >= leastMachine:
		row("    ", "meter", p.Meter)
		row("    ", "healthy", limits+"  "+sty.label.Render("machine")+"  "+short(machine, beside))
	default:
		row("    ", "meter", p.Meter)
		row("    ", "machine", machine)
		row("    ", "healthy", healthy)
	}
	if t == whole {
		row("    ", "alone", p.Alone)
	}
	return out
}

// leastMachine is how many cells the state of the machine needs to say something.
const leastMachine = 16

// uncovered is a point on one line, what has to come off cut short, where the point
// itself has room on it.
func uncovered(point string, room int) string {
	if title, _, ok := strings.Cut(point, " (behind: "); ok && ansi.StringWidth(title) <= room {
		return short(point, room)
	}
	return point
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
