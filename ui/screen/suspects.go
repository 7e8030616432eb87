package screen

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/counsel"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// suspects are what a step shows of them.
type suspects struct {
	shown   bool // there are some at this bench
	awaited bool // they are still being worked out
	leaders []string
	list    []counsel.Suspect
	read    bool     // some answer was weighed: there is a why
	doubts  []string // findings in doubt
}

// mostBeside is how many suspects stand beside a step.
const mostBeside = 3

func suspectsOf(s *ui.Session) suspects {
	if !s.Suspecting() {
		return suspects{}
	}
	c := s.Counsel()
	out := suspects{shown: true, awaited: s.Awaited(), read: c.Readings > 0, leaders: s.Leaders(), list: c.Suspects[:min(len(c.Suspects), mostBeside)]}
	for _, d := range c.Doubts {
		out.doubts = append(out.doubts, d.Fault.ID)
	}
	return out
}

// doubtMark stands behind a finding that is in doubt.
func (s *step) doubtMark(fault string) string {
	if slices.Contains(s.suspects.doubts, fault) {
		return " (in doubt)"
	}
	return ""
}

// doubtCount says how many findings are in doubt.
func (s *step) doubtCount() string {
	if n := len(s.suspects.doubts); n > 0 {
		return fmt.Sprintf(", in doubt %d", n)
	}
	return ""
}

// suspectsBeside is a short list of the suspects, as much of it as there is room
// for: why they are suspected gives way first, then the last of them.
func (s *step) suspectsBeside(sty styles, width, room int) []string {
	list := s.suspects.list
	if s.prompt.Stage == walk.AtDanger || len(list) == 0 && !s.suspects.awaited {
		return nil
	}
	head := sty.label.Render("Suspects")
	if len(list) == 0 {
		if room < 1 {
			return nil
		}
		return []string{head + " are being worked out"}
	}
	for ; len(list) > 0; list = list[:len(list)-1] {
		for _, why := range []bool{true, false} {
			out := []string{head}
			for _, one := range list {
				out = append(out, hang("  "+ui.Bar(one.P)+"  ", one.Title+", "+one.Words, width)...)
				if why && s.suspects.read {
					out = append(out, hang("    ", one.Why, width)...)
				}
			}
			if len(out) <= room {
				return out
			}
		}
	}
	return nil
}

// suspectsLine names those that lead, as many as one line holds; empty when none does.
// The key that shows all stands there because the key line may be full.
func (s *step) suspectsLine(width int) string {
	list := s.suspects.leaders
	if len(list) == 0 || s.prompt.Stage == walk.AtDanger {
		return ""
	}
	line := func() string { return "Suspects (w): " + strings.Join(list, ", ") }
	for len(list) > 1 && ansi.StringWidth(line()) > width {
		list = list[:len(list)-1]
	}
	return short(line(), width)
}

// suspectsReady says that suspects are ready, perhaps those of the open job.
type suspectsReady struct{}

// awaitSuspects waits for the next that are ready; nil where there are none.
func (m *Model) awaitSuspects() tea.Cmd {
	if m.bench.Suspects == nil {
		return nil
	}
	changed, done := m.bench.Suspects.Changed(), m.ctx.Done()
	return func() tea.Msg {
		select {
		case <-changed:
			return suspectsReady{}
		case <-done:
			return nil
		}
	}
}

// takeSuspects shows what is ready now, and waits for the next. It begins to wait
// before it looks, so that none is missed.
func (m *Model) takeSuspects() tea.Cmd {
	next := m.awaitSuspects()
	if m.step == nil {
		return next
	}
	m.refresh()
	if m.over != nil && m.over.view == ui.Suspected {
		m.over.lines = m.step.view(ui.Suspected)
	}
	return next
}
