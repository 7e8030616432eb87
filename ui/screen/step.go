package screen

import (
	"strings"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// step is a job as the page shows it: what the session said at that moment. It
// holds no session; the two functions only read one.
type step struct {
	id        int64
	machine   string
	complaint string
	tree      string // the tree the walk is in, by title
	prompt    ui.Prompt
	pos       walk.Position
	asking    bool            // a value was questioned
	before    []string        // readings so far, a line each, oldest first
	cared     map[string]bool // cautions that stood in full on an earlier step
	words     []string        // words that a line may begin with: verbs, tests, choices
	line      func(typed string) *ui.BandLine
	view      func(ui.Verb) []string
}

// keys are the keys that do something here.
func (s *step) keys() []binding { return stepKeys(s.prompt.Stage, s.pos.Test, s.asking) }

// press is what a key asks for while the input line holds text.
func (s *step) press(k key, in *input) action {
	typed := in.text()
	if k.name == "enter" {
		return s.enter(typed)
	}
	b := find(s.keys(), k.name)
	switch {
	case typed == "" && k.digit() && s.picksAtOnce():
		return action{deed: send, text: k.name}
	case k.char != 0 && (typed != "" || b == nil || b.waits):
		in.press(k)
		return action{}
	case k.char == 0 && in.press(k):
		return action{}
	case b != nil:
		return b.act
	}
	return action{}
}

// picksAtOnce says whether a digit alone answers: something to be seen, with no
// choice of two digits.
func (s *step) picksAtOnce() bool {
	return isAsked(s.prompt.Stage) && len(s.prompt.Choices) > 0 && len(s.prompt.Choices) <= 9
}

// enter is what Enter does with what is typed.
func (s *step) enter(typed string) action {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return action{}
	}
	if b := s.waiting(typed); b != nil {
		return b.act
	}
	number := strings.Trim(typed, "0123456789") == ""
	switch {
	case number && s.prompt.Stage == walk.AtVerdict:
		typed = string(ui.Choose) + " " + typed
	case number && s.prompt.Stage == walk.AtClose:
		typed = string(ui.Close) + " " + typed
	}
	return action{deed: send, text: typed}
}

// waiting is the key that Enter would set off, nil when what is typed is text.
func (s *step) waiting(typed string) *binding {
	if b := find(s.keys(), typed); b != nil && b.waits {
		return b
	}
	return nil
}

// hint says what Enter will do, when that can't be seen from what is typed.
func (s *step) hint(typed string) string {
	if b := s.waiting(strings.TrimSpace(typed)); b != nil {
		return "Enter: " + b.says
	}
	if typed != "" {
		return ""
	}
	switch s.prompt.Stage {
	case walk.AtDanger, walk.AtSafe:
		return "type yes, then Enter"
	case walk.AtVerdict:
		return "a way's number, then Enter, or close"
	case walk.AtClose:
		return "the number of an outcome, then Enter"
	case walk.AtWork, walk.AtRepair:
		return "d and Enter when it is done"
	case walk.AtClosed, walk.AtIntake:
		return "q and Enter: back to the jobs"
	}
	if s.asking {
		return "the reading again, or k and Enter to keep it"
	}
	return s.askHint()
}

func (s *step) askHint() string {
	switch {
	case s.picksAtOnce():
		return "the number of what you see"
	case len(s.prompt.Choices) > 0:
		return "the number of what you see, then Enter"
	}
	return "the reading, then Enter"
}

// begins says whether a word that may be typed here begins so.
func (s *step) begins(text string) bool {
	text = strings.ToLower(text)
	for _, w := range s.words {
		if strings.HasPrefix(w, text) {
			return true
		}
	}
	return false
}
