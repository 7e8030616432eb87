package screen

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// nextMark stands before the line of a checklist that is ticked next.
const nextMark = "> "

// checklist is what to know first, then the lines with their marks. How a service
// is done gives way where there is little room; the view of why has it.
func (s *step) checklist(sty styles, width int, t tight) []string {
	var out []string
	for _, t := range s.prompt.Tell {
		out = append(out, hang("  ", t, width)...)
	}
	if len(out) > 0 {
		out = append(out, "")
	}
	for _, it := range s.prompt.List {
		lead, look := "  ", sty.plain
		if it.Next {
			lead, look = nextMark, sty.title
		}
		text := it.Text
		if t == whole && it.Tell != "" && it.Open() {
			text += ": " + it.Tell
		}
		out = append(out, paint(look, hang(fmt.Sprintf("%s%s %2d  ", lead, it.Mark, it.Number), text, width))...)
	}
	return out
}

// ticked says whether this step is a list that is ticked.
func (s *step) ticked() bool {
	return s.prompt.Stage == walk.AtRepair || s.prompt.Stage == walk.AtService
}

// next is the line that is ticked next, nil when none is.
func (s *step) next() *ui.Item {
	if i := slices.IndexFunc(s.prompt.List, func(it ui.Item) bool { return it.Next }); i >= 0 {
		return &s.prompt.List[i]
	}
	return nil
}

// item is the line of the list that a typed number names, nil without one.
func (s *step) item(typed string) *ui.Item {
	for i := range s.prompt.List {
		if fmt.Sprint(s.prompt.List[i].Number) == typed {
			return &s.prompt.List[i]
		}
	}
	return nil
}

// needs says whether the repair can't be called done yet.
func (s *step) needs() bool {
	return slices.ContainsFunc(s.pos.Lines, func(l walk.Line) bool { return l.Needed() && !l.Done })
}

// listKeys are the keys of a list that is ticked. Enter alone ticks the next line:
// a hand that holds a wrench finds it, and undo takes it back.
func listKeys(s *step) []binding {
	var out []binding
	sends := func(text string) action { return action{deed: send, text: text} }
	open := slices.ContainsFunc(s.prompt.List, ui.Item.Open)
	if s.next() != nil {
		out = append(out, binding{keys: []string{"enter"}, short: "tick", says: "tick the line under >; a number ticks another", act: sends(string(ui.Tick))})
	}
	if s.prompt.Stage == walk.AtRepair && !s.needs() {
		out = append(out, binding{keys: []string{"d"}, short: "done", says: "the repair is done", waits: true, act: sends(string(ui.Done))})
	}
	if open && !s.prompt.Care {
		out = append(out, binding{keys: []string{"a"}, short: "all", says: "tick all that is open", waits: true, act: sends(string(ui.All))})
	}
	if open && s.prompt.Stage == walk.AtService {
		out = append(out, binding{keys: []string{"c"}, short: "leave out", says: "leave out all that is open", waits: true, act: sends(string(ui.Pass))})
	}
	return out
}

// listHint says what Enter does at a list while nothing is typed.
func (s *step) listHint() string {
	next := s.next()
	switch {
	case s.prompt.Care:
		return "type yes, then Enter: the cautions are understood"
	case next != nil:
		return fmt.Sprintf("Enter: tick %d", next.Number)
	case s.prompt.Stage == walk.AtService:
		return "the number of what is done, then Enter"
	}
	return "d and Enter when it is done"
}

// itemHint says what a typed number ticks.
func (s *step) itemHint(typed string) string {
	it := s.item(typed)
	switch {
	case s.prompt.Care:
		return "type yes, or Esc"
	case it == nil:
		return typed + " is none of the list"
	case !it.Open():
		return fmt.Sprintf("%d is settled", it.Number)
	case it.Begin:
		return fmt.Sprintf("Enter: what makes %d safe: %s", it.Number, it.Text)
	}
	return fmt.Sprintf("Enter: %d is done: %s", it.Number, it.Text)
}

// follow is the line from which a page is shown so that what is ticked next can be
// seen, with some of what comes before it.
func follow(lines []string, height int) int {
	at := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(ansi.Strip(l), nextMark+"[") })
	if at < height-2 {
		return 0
	}
	return at - height/2
}
