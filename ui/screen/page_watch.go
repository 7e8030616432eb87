package screen

import (
	"fmt"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"benchlead/ui"
)

// watchTick asks for a look at the watch that runs.
type watchTick struct{ run int }

// lookEach is how often a running watch is looked at. What is taken is the time
// between two keys, not between two looks.
const lookEach = 100 * time.Millisecond

// watchKey starts the watch and stops it. It acts at once: the hand is on the key
// and the eye on the machine. It records nothing.
func watchKey(s *step) binding {
	b := binding{keys: []string{" "}, short: "start the watch", says: "start the stop-watch", act: action{deed: timing}}
	if s.watch.Runs {
		b.short, b.says = "stop the watch", "stop the stop-watch"
	}
	return b
}

// watching says whether a key is for the watch: the space bar, unless something
// else than the time it proposed is typed. While it runs it is always.
func (s *step) watching(k key, typed string) bool {
	return s.timed && k.char == ' ' && (s.watch.Runs || typed == "" || typed == s.watch.Slowest())
}

// timing starts the watch, or stops it and puts the slowest time into the input
// line, for Enter to take.
func (m *Model) timing() tea.Cmd {
	stops := m.session.Watch().Runs
	verb := ui.Time
	if stops {
		verb = ui.Stop
	}
	reply, err := m.session.Do(m.ctx, ui.Action{Verb: verb})
	m.over, m.said, m.wrong = nil, reply.Said, ""
	if err != nil {
		m.wrong = sentence(err)
	}
	m.input.set("")
	m.refresh()
	if stops {
		m.input.set(m.step.watch.Slowest())
		return nil
	}
	m.said, m.step.ran = nil, 0 // the page says it
	m.ticks++
	return m.look()
}

// look comes back to the watch after a while.
func (m *Model) look() tea.Cmd {
	run := m.ticks
	return tea.Tick(lookEach, func(time.Time) tea.Msg { return watchTick{run} })
}

// tick shows how long the watch has run, and comes back as long as it does.
func (m *Model) tick(t watchTick) tea.Cmd {
	if m.step == nil || t.run != m.ticks || !m.session.Watch().Runs {
		return nil
	}
	m.step.ran = max(m.bench.Ticks()-m.step.watch.From, 0)
	return m.look()
}

// running is the page of a watch that runs: nothing but what can be read from the
// operator's place.
func (s *step) running(sty styles, width, height int) []string {
	head := paint(sty.title, wrap(s.prompt.Title, width))
	below := hang("  ", "Stop it when all stands still. Never look under. Eyes on the machine, not on this.", width)
	if taken := s.watch.Times(); len(taken) > 0 {
		below = append(below, hang("  ", "Taken so far: "+strings.Join(taken, ", ")+" s.", width)...)
	}
	shown := fmt.Sprintf("%d.%d", s.ran/1_000_000, s.ran/100_000%10)
	return airy([][]string{head, figures(shown, width, height-len(head)-len(below)-2), below}, height)
}
