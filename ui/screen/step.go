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
	chosen    bool            // a repair path is chosen
	fresh     bool            // there is nothing to take back yet
	before    []string        // readings so far, a line each, oldest first
	cared     map[string]bool // cautions that stood in full on an earlier step
	words     []string        // words that a line may begin with: verbs, tests, choices
	suspects  suspects
	watch     ui.Watch
	timed     bool  // the test is timed
	held      int   // how many of its times were counted down
	ran       int64 // microseconds that the watch has run, at the last look
	line      func(typed string) *ui.BandLine
	view      func(ui.Verb) []string
}

// keys are the keys that do something here.
func (s *step) keys() []binding { return stepKeys(s) }

// press is what a key asks for while the input line holds text.
func (s *step) press(k key, in *input) action {
	typed := in.text()
	if k.name == "enter" {
		return s.enter(typed)
	}
	b := find(s.keys(), k.name)
	switch {
	case s.watching(k, typed):
		return action{deed: timing}
	case k.char != 0 && (typed != "" || b == nil || b.waits):
		in.press(k)
		s.withoutOpener(in)
		return action{}
	case k.char == 0 && in.press(k):
		return action{}
	case b != nil:
		return b.act
	}
	return action{}
}

// withoutOpener takes the key off that opened a page, once what was typed on the
// page begins a word only without it.
func (s *step) withoutOpener(in *input) {
	rest, ok := strings.CutPrefix(in.text(), in.opened)
	if ok && in.opened != "" && !s.begins(in.text()) && s.begins(rest) {
		in.set(rest)
	}
}

// wantsYes says whether the step waits for the word yes.
func (s *step) wantsYes() bool {
	return s.prompt.Stage == walk.AtDanger || s.prompt.Stage == walk.AtSafe || strings.HasPrefix(s.prompt.Ask, string(ui.Yes))
}

// saysNo says whether an answer to a question for yes is a no. That records
// nothing: the question stands until it is so.
func (s *step) saysNo(typed string) bool {
	return s.wantsYes() && !strings.Contains(s.prompt.Ask, "anything else") && (strings.EqualFold(typed, "n") || strings.EqualFold(typed, "no"))
}

// enter is what Enter does with what is typed.
func (s *step) enter(typed string) action {
	typed = strings.TrimSpace(typed)
	if typed == "" && s.next() != nil {
		return action{deed: send, text: string(ui.Tick)}
	}
	if typed == "" || s.saysNo(typed) {
		return action{}
	}
	if b := s.waiting(typed); b != nil {
		return b.act
	}
	switch {
	case isNumber(typed) && s.prompt.Stage == walk.AtVerdict:
		typed = string(ui.Choose) + " " + typed
	case isNumber(typed) && s.prompt.Stage == walk.AtClose:
		typed = string(ui.Close) + " " + typed
	}
	return action{deed: send, text: typed}
}

func isNumber(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }

// waiting is the key that Enter would set off, nil when what is typed is text.
func (s *step) waiting(typed string) *binding {
	if b := find(s.keys(), typed); b != nil && b.waits {
		return b
	}
	return nil
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
