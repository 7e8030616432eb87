package screen

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"benchlead/ui"
)

// bell makes the terminal sound.
const bell = "\a"

// countdown is a time of a step that is counted down. It records nothing and answers
// nothing; it is lost when the step is left.
type countdown struct {
	step   string // which step it is of
	done   int    // how many of the step's times are over
	from   int64  // when it was started, by the bench's clock, microseconds
	left   int64  // microseconds, at the last look
	runs   bool
	hidden bool // the step is shown while it runs
	ended  bool // it is just over, and the page that says so stands until the next key
	ring   bool // the bell sounds with this page
	run    int  // counts the runs, so that a look of an earlier one is known
}

// countTick asks for a look at the countdown that runs.
type countTick struct{ run int }

// wallClock is from when on it is also said when a time will be over, microseconds.
const wallClock = 10 * 60 * 1_000_000

// shown says whether its page is to be shown.
func (c countdown) shown() bool { return c.runs && !c.hidden || c.ended }

// says is what is left of it, in a few words; empty when none runs.
func (c countdown) says() string {
	switch {
	case c.ended:
		return "time is up"
	case c.runs:
		return clock(c.left) + " left"
	}
	return ""
}

// clock writes what is left, a second begun as a whole one: 9, 2:05, 1:59:59.
func clock(us int64) string {
	s := (us + 999_999) / 1_000_000
	switch {
	case s < 60:
		return fmt.Sprint(s)
	case s < 3600:
		return fmt.Sprintf("%d:%02d", s/60, s%60)
	}
	return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
}

// countKey counts down the next time of a step. It acts at once: the other hand is on
// the machine.
func countKey(s *step) binding {
	long := ui.HoldWords(s.hold())
	return binding{keys: []string{" "}, short: "count " + long, says: "count down the " + long + " that the step says; it answers nothing", act: action{deed: counting}}
}

// hold is the time that the space bar counts down, seconds.
func (s *step) hold() int { return s.prompt.Hold[s.held%len(s.prompt.Hold)] }

// stepName tells one step from another.
func (s *step) stepName() string {
	name := string(s.prompt.Stage) + " " + s.prompt.Title
	if s.pos.Test != nil {
		name += " " + s.pos.Test.ID
	}
	return name
}

// startCount starts the countdown of the step's next time, or shows the one that runs.
func (m *Model) startCount() tea.Cmd {
	m.said, m.wrong = nil, ""
	if m.count.runs {
		m.count.hidden = false
		return nil
	}
	whole := int64(m.step.hold()) * 1_000_000
	m.count = countdown{step: m.step.stepName(), done: m.step.held % len(m.step.prompt.Hold), from: m.bench.Now(), left: whole, runs: true, run: m.count.run + 1}
	return m.lookAtCount()
}

// lookAtCount comes back when the shown second changes.
func (m *Model) lookAtCount() tea.Cmd {
	run, wait := m.count.run, m.count.left%1_000_000
	if wait == 0 {
		wait = 1_000_000
	}
	return tea.Tick(time.Duration(wait)*time.Microsecond, func(time.Time) tea.Msg { return countTick{run} })
}

// countOn shows what is left of the countdown, and ends it. A look after its end takes
// the bell away again.
func (m *Model) countOn(t countTick) tea.Cmd {
	c := &m.count
	if t.run != c.run || m.step == nil {
		return nil
	}
	if !c.runs {
		c.ring = false
		return nil
	}
	now := m.bench.Now()
	if now < c.from { // the computer's clock was set back: what is left stays
		c.from = now - (int64(m.step.hold())*1_000_000 - c.left)
	}
	c.left = max(int64(m.step.hold())*1_000_000-(now-c.from), 0)
	if c.left > 0 {
		return m.lookAtCount()
	}
	c.runs, c.hidden, c.ended, c.ring = false, false, true, m.bell
	c.done++
	m.step.held = c.done
	return m.lookAtCount()
}

// hideCount shows the step while the countdown runs on; once more ends it.
func (m *Model) hideCount() {
	if !m.count.hidden {
		m.count.hidden = true
		m.said = []string{"The countdown runs on. Space shows it, Esc ends it."}
		return
	}
	m.count.runs, m.count.hidden = false, false
	m.said = []string{"The countdown is ended. Space starts it anew."}
}

// keepCount lets go of a countdown that was of another step.
func (m *Model) keepCount() {
	if m.count.step != m.step.stepName() {
		m.count = countdown{run: m.count.run}
	}
	m.step.held = m.count.done
}

// switchBell has a countdown end with the bell, or in silence.
func (m *Model) switchBell() {
	m.bell = !m.bell
	m.said, m.wrong = []string{"The bell is off."}, ""
	if m.bell {
		m.said = []string{"A countdown ends with the bell. Ctrl-G: without."}
	}
}

// countHint says what the keys do at the page of a countdown.
func (m *Model) countHint() string {
	switch {
	case m.count.hidden:
		return "Space shows the countdown; " + m.step.asks()
	case m.count.runs:
		return "Esc: back to the step, it runs on"
	case m.count.done < len(m.step.prompt.Hold):
		return "Space counts " + ui.HoldWords(m.step.hold())
	}
	return m.step.hint("")
}

// counted is the page of a countdown: what is left, and what to do meanwhile and then.
func (m *Model) counted(l layout) []string {
	s, c := m.step, m.count
	head := paint(m.sty.title, wrap(s.prompt.Title, l.width))
	head = append(head, paint(m.sty.care, s.care(l.width, titles))...)
	if c.ended {
		return m.timeUp(head, l)
	}
	below := hang("    ", m.until(), l.width)
	var tell []string
	for _, t := range s.prompt.Tell {
		lines := hang("    ", t, l.width)
		if len(head)+len(below)+len(tell)+len(lines)+figureRows > l.body {
			break
		}
		tell = append(tell, lines...)
	}
	room := max(l.body-len(head)-len(below)-len(tell)-3, figureRows) // with room for a line between them
	return cut(airy([][]string{head, figures(clock(c.left), l.width, room), below, tell}, l.body), l.body)
}

// timeUp is the page of a countdown that is over. What can be seen stands on it, to be
// answered by its number at once; where there is little room the figure gives way to it,
// and then what was read while it counted.
func (m *Model) timeUp(head []string, l layout) []string {
	s := m.step
	up := paint(m.sty.title, hang("    ", s.prompt.TimeUp(m.count.done-1), l.width))
	var list []string
	if m.count.done >= len(s.prompt.Hold) {
		list = s.choices(m.sty, l.width)
	}
	room := l.body - len(head) - len(up) - len(list) - 3
	switch {
	case len(list) == 0:
		return cut(airy([][]string{head, figures("0", l.width, l.body-len(head)-len(up)-2), up}, l.body), l.body)
	case room >= figureRows:
		return airy([][]string{head, figures("0", l.width, room), up, list}, l.body)
	case len(head)+len(up)+len(list) <= l.body:
		return airy([][]string{head, up, list}, l.body)
	}
	return airy([][]string{up, list}, l.body)
}

// until says for how long it counts, when a long time will be over, and the bell.
func (m *Model) until() string {
	s, c := m.step, m.count
	out := "Counts " + ui.HoldWords(s.hold())
	if n := len(s.prompt.Hold); n > 1 {
		out += fmt.Sprintf(", %d of %d", c.done+1, n)
	}
	if whole := int64(s.hold()) * 1_000_000; whole >= wallClock {
		out += ", until " + time.UnixMicro(c.from+whole).In(m.jobs.zone).Format("15:04")
	}
	if m.bell {
		return out + ", then the bell. Ctrl-G: no bell."
	}
	return out + ". Ctrl-G: with the bell."
}

func cut(lines []string, height int) []string { return lines[:min(len(lines), height)] }
