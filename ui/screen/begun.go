package screen

import (
	"strings"
	"unicode/utf8"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// ownWords parts a line that is an answer of the owner, or a note, in what it begins with
// and the words that somebody has to write behind it; false for any other line.
func (s *step) ownWords(typed string) (head, words string, ok bool) {
	verb, rest, _ := strings.Cut(strings.TrimLeft(typed, " "), " ")
	rest = strings.TrimSpace(rest)
	atEstimate := s.prompt.Stage == walk.AtEstimate
	switch ui.Verb(strings.ToLower(verb)) {
	case ui.Note:
		return verb, rest, true
	case ui.Decline, ui.Pass:
		return verb, rest, atEstimate
	case ui.Approve:
		amount, who, _ := strings.Cut(rest, " ")
		return strings.TrimSpace(verb + " " + amount), strings.TrimSpace(who), atEstimate
	}
	return "", "", false
}

// begun is a line of somebody's own words that was refused, so that the next letter
// goes on with it. A single letter was meant for a key. Empty: the line is to be typed
// anew.
func (s *step) begun(typed string) string {
	head, words, ok := s.ownWords(typed)
	if !ok {
		return ""
	}
	if utf8.RuneCountInString(words) > 1 {
		head += " " + words
	}
	return head + " "
}

// wantsWords says what is to be written behind a line that was begun; empty once it is.
func (s *step) wantsWords(typed string) string {
	head, words, ok := s.ownWords(typed)
	if !ok || utf8.RuneCountInString(words) > 1 {
		return ""
	}
	verb, amount, _ := strings.Cut(head, " ")
	switch ui.Verb(strings.ToLower(verb)) {
	case ui.Approve:
		if amount == "" {
			return "the amount, then who said so"
		}
		return "who said so, then Enter"
	case ui.Decline:
		return "who said so, then Enter"
	case ui.Pass:
		return "why the owner is not asked, then Enter"
	}
	return "the note, then Enter"
}
