package screen

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// notSeen says of lines that they have to be shown before yes counts.
const notSeen = "not seen yet"

// toRead is how many lines of the page have to be shown before yes counts for them:
// those of a danger, of what makes safe and of terms, and the cautions before a list.
func (s *step) toRead(lines []string) int {
	switch {
	case !s.wantsYes() || s.prompt.Stage == ui.SureStage:
		return 0
	case s.prompt.Stage == walk.AtDanger, s.prompt.Stage == walk.AtSafe, s.prompt.Stage == walk.AtTerms:
		return len(lines)
	case s.prompt.Care:
		return max(slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(ansi.Strip(l), "  [") }), 0)
	}
	return 0
}

// saw keeps how far down the page was shown. A page that was never scrolled past a line
// has shown it.
func (m *Model) saw(lines []string, from, height int) {
	shown := from + height
	if len(lines) > height {
		shown-- // the last line says that there is more
	}
	if from <= m.read {
		m.read = max(m.read, shown)
	}
	m.unread = max(m.step.toRead(lines)-m.read, 0)
}

// waitsForReading says whether lines of the page must be shown before what is typed
// counts: yes, or nothing so far.
func (m *Model) waitsForReading() bool {
	typed := strings.TrimSpace(m.input.text())
	return m.unread > 0 && (typed == "" || strings.EqualFold(typed, string(ui.Yes)))
}

// readsFirst is waitsForReading for the page as it is now, which keys that came fast
// may have changed since it was drawn.
func (m *Model) readsFirst() bool {
	m.unread = 0
	m.body(m.layout())
	return m.waitsForReading()
}

// readOn is what Enter does then: alone it shows what follows, yes has to wait.
func (m *Model) readOn() action {
	if strings.TrimSpace(m.input.text()) == "" {
		return action{deed: scroll, by: 1, page: true}
	}
	return action{deed: holdBack}
}

// unseen says how many lines are still to be shown, and how.
func (m *Model) unseen() string {
	are := " are "
	if m.unread == 1 {
		are = " is "
	}
	return count(m.unread) + are + notSeen + ": PgDn"
}
