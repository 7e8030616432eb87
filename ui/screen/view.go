package screen

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// View draws the page: never wider or taller than the window.
func (m *Model) View() string {
	if tooSmall(m.width, m.height) {
		return strings.Join(m.small(), "\n")
	}
	l := m.layout()
	out := m.drawn(l)
	for i := range out {
		out[i] = clip(out[i], l.width)
	}
	if m.count.ring {
		out[0] += bell
	}
	return strings.Join(out[:min(len(out), l.height)], "\n")
}

// drawn are the lines of the page. Each part keeps to the width by itself, and says so
// where it shortens something: View only makes sure of it.
func (m *Model) drawn(l layout) []string {
	var out []string
	out = append(out, m.head(l)...)
	out = append(out, m.body(l)...)
	out = append(out, m.status(l.width))
	out = append(out, m.foot(l)...)
	return append(out, m.inputLine(l.width), keyLine(m.bindings(), m.sty, l.width))
}

// small says that nothing useful fits.
func (m *Model) small() []string {
	lines := wrap(fmt.Sprintf("Make the window larger: %d by %d at least.", leastWidth, leastHeight), m.width)
	for i := range lines {
		lines[i] = clip(lines[i], m.width)
	}
	return lines[:min(len(lines), m.height)]
}

// layout shares the window out for what is to be said now.
func (m *Model) layout() layout {
	return share(m.width, m.height, len(m.footLines(m.width)))
}

// head is the line that says which job this is, and a rule.
func (m *Model) head(l layout) []string {
	switch {
	case m.step != nil:
		left := fmt.Sprintf("job %d  %s", m.step.id, m.step.machine)
		return []string{
			ends(left, m.step.complaint, l.width),
			m.sty.dim.Render(rule(m.step.system(), m.step.where(), l.width/2-6, l.width)),
		}
	case m.intake != nil:
		return []string{
			ends("A new job", "nothing is recorded before the last answer", l.width),
			m.sty.dim.Render(rule("Intake", m.intake.where(), l.width/2, l.width)),
		}
	}
	record := m.jobs.record
	if m.jobs.demo {
		record = "demo: nothing is kept"
	}
	return []string{ends("benchlead", record, l.width), m.sty.dim.Render(rule("Jobs", "", 0, l.width))}
}

// status is the rule above the foot, with how far the job has got on it.
func (m *Model) status(width int) string {
	if m.step == nil {
		return m.sty.dim.Render(strings.Repeat("-", width))
	}
	return m.step.status(m.sty, m.count.says(), width)
}

// body is the page between the rules, exactly as high as the layout says.
func (m *Model) body(l layout) []string {
	var lines []string
	page := false
	switch {
	case m.over != nil:
		lines = m.over.body(m.sty, l.width, l.body)
	case m.intake != nil:
		lines = m.intake.body(m.sty, l)
	case m.step != nil && m.step.watch.Runs:
		lines = m.step.running(m.sty, l.width, l.body)
	case m.reading() != nil:
		lines = m.bigReading(m.reading(), l)
	case m.count.shown():
		lines = m.counted(l)
	case m.step != nil:
		lines, page = m.step.body(m.sty, l), true
	default:
		lines = m.jobs.body(m.sty, m.input.text(), l.width, l.body)
	}
	if m.over == nil && m.follows && m.step != nil && m.step.ticked() {
		m.from = follow(lines, l.body)
	}
	seen, at := window(lines, m.from, l.body)
	if m.over == nil {
		m.seen = at
	}
	if page {
		m.saw(lines, at, l.body)
	}
	if n := len(seen); n > 0 && strings.HasPrefix(seen[n-1], moreMark) {
		seen[n-1] = m.sty.title.Render(seen[n-1])
	}
	return seen
}

// foot is what stands above the input line, its first lines when it is too long.
func (m *Model) foot(l layout) []string {
	lines := m.footLines(l.width)
	if len(lines) <= l.foot {
		return lines
	}
	lines = lines[:l.foot:l.foot]
	if l.foot > 0 { // what is left out is shown to be
		lines[l.foot-1] = pad(clip(lines[l.foot-1], l.width-3), l.width-3) + " .."
	}
	return lines
}

// footLines are what came of the last line, and the line of bands, from the top.
func (m *Model) footLines(width int) []string {
	var out []string
	if m.over != nil {
		return nil
	}
	said := m.said
	if m.step != nil {
		said = m.step.unsaid(said)
	}
	if m.reading() != nil {
		said = nil // it stands in the body, or was about the answer before
	}
	for _, s := range said {
		out = append(out, wrap(s, width)...)
	}
	if m.wrong != "" {
		out = append(out, paint(m.sty.stop, hang("! ", m.wrong, width))...)
	}
	switch {
	case m.answered != nil:
		out = append(out, drawBands(m.answered.line, m.sty, width-2)...)
	case m.step != nil:
		out = append(out, m.step.bands(m.sty, m.input.text(), width)...)
	}
	return out
}

// inputLine is the input with what Enter will do at its right.
func (m *Model) inputLine(width int) string {
	hint := ""
	switch {
	case m.input.lost != "":
		hint = bringsBack
	case m.input.refused:
		hint = "type it again, or Backspace to mend it"
	case m.over != nil && m.over.tests != nil:
		return m.over.search.searching("words of its name", width)
	case m.over != nil && m.over.prices != nil:
		return m.over.prices.search.searching("words of it", width)
	case m.over != nil && m.over.asks:
		hint = "the answer, or Esc: back to the question"
	case m.over != nil:
	case m.intake != nil:
		hint = m.intake.hint(m.input.text(), m.input.offered)
	case m.answered != nil:
		hint = "Enter: the next step"
	case (m.count.runs || m.count.ended) && m.input.empty():
		hint = m.countHint()
	case m.step != nil && m.waitsForReading():
		hint = m.unseen()
	case m.step != nil:
		hint = m.step.hint(m.input.text())
	case strings.TrimSpace(m.input.text()) == "q":
		hint = "Enter: leave the program"
	default:
		hint = "a job's number, then Enter"
	}
	if hint == "" {
		return m.input.view(width)
	}
	// A long text leaves the hint half of the line.
	hint = short(hint, width-2-min(ansi.StringWidth(m.input.text())+3, width/2))
	room := width - ansi.StringWidth(hint)
	return pad(m.input.view(room-2), room) + hint
}
