package screen

import (
	"strings"
	"unicode"

	"benchlead/diag/walk"
)

// unsaid is what was said, less the sentences that the page of a danger says
// already in the same words.
func (s *step) unsaid(said []string) []string {
	if s.prompt.Stage != walk.AtDanger {
		return said
	}
	page := spoken(strings.Join(append(append([]string{s.prompt.Title}, s.prompt.Caution...), s.prompt.Tell...), " "))
	var out []string
	for _, line := range said {
		kept := ""
		for _, sentence := range strings.SplitAfter(line, ". ") {
			if !strings.Contains(page, spoken(sentence)) {
				kept += sentence
			}
		}
		if kept = strings.TrimSpace(kept); kept != "" {
			out = append(out, kept)
		}
	}
	return out
}

// spoken is the words of a text with a space on either side, and no signs.
func spoken(text string) string {
	return " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ") + " "
}
