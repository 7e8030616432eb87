package screen

import (
	"fmt"
	"strings"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// hint says what Enter will do, when that can't be seen from what is typed.
func (s *step) hint(typed string) string {
	typed = strings.TrimSpace(typed)
	switch b := s.waiting(typed); {
	case s.wantsWords(typed) != "":
		return s.wantsWords(typed)
	case s.watch.Runs:
		return "Space stops the watch"
	case b != nil:
		return "Enter: " + b.says
	case typed == "" && len(s.prompt.Hold) > 0:
		return "Space counts " + ui.HoldWords(s.hold()) + "; " + s.asks()
	case typed == "":
		return s.asks()
	case s.wantsYes() && strings.EqualFold(typed, string(ui.Yes)):
		return "Enter: yes"
	case s.saysNo(typed), s.wantsYes() && strings.HasPrefix(string(ui.Yes), strings.ToLower(typed)):
		return "type yes, or Esc"
	case isNumber(typed) && s.ticked():
		return s.itemHint(strings.TrimLeft(typed, "0"))
	case isNumber(typed) && len(s.list()) > 0:
		return chosen(s.list(), typed)
	case isAsked(s.prompt.Stage):
		if n, title := ui.ChoiceOf(s.pos.Test, typed); n > 0 {
			return fmt.Sprintf("Enter: %d %s", n, title)
		}
	}
	return ""
}

// list is the numbered list that a number chooses from, a line each that
// begins with its number.
func (s *step) list() []string {
	if s.prompt.Stage != walk.AtVerdict {
		return s.prompt.Choices
	}
	var out []string
	for _, line := range s.prompt.Tell {
		if isWay(line) {
			out = append(out, line)
		}
	}
	return out
}

// chosen says what a number chooses from a list of lines that begin with theirs.
func chosen(list []string, typed string) string {
	for _, line := range list {
		if number, text, _ := strings.Cut(line, " "); number == strings.TrimLeft(typed, "0") {
			return "Enter: " + number + " " + strings.TrimSpace(text)
		}
	}
	return typed + " is none of the list"
}

// asks says what the step waits for while nothing is typed.
func (s *step) asks() string {
	switch s.prompt.Stage {
	case walk.AtDanger:
		return "type yes, then Enter: it is understood"
	case walk.AtSafe:
		return "type yes, then Enter: all of it is so"
	case walk.AtVerdict:
		return "a way's number, then Enter, or close"
	case walk.AtEstimate:
		return "what the owner says: a, d or c, then Enter"
	case walk.AtClose:
		return "the number of an outcome, then Enter"
	case walk.AtWork:
		return "d and Enter when it is done"
	case walk.AtRepair, walk.AtService:
		return s.listHint()
	case ui.SureStage:
		return "yes, then Enter, closes it for good"
	case walk.AtClosed, walk.AtIntake:
		return "q and Enter: back to the jobs"
	}
	switch {
	case s.timed && !s.asking:
		return "Space starts the watch; or the seconds, then Enter"
	case s.asking && s.prompt.CantKeep && s.prompt.Meant == "":
		return "the reading again, then Enter"
	case s.asking && s.prompt.CantKeep:
		return "the reading again, or y and Enter for " + s.prompt.Meant
	case s.asking && s.prompt.Meant != "":
		return "y and Enter: " + s.prompt.Meant + "; k and Enter keeps it"
	case s.asking:
		return "the reading again, or k and Enter to keep it"
	case !isAsked(s.prompt.Stage):
		return s.prompt.Ask + ", then Enter"
	case len(s.prompt.Choices) > 0:
		return "the number of what you see, then Enter"
	}
	return "the reading, then Enter"
}
