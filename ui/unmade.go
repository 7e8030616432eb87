package ui

import (
	"slices"
	"strings"

	"benchlead/diag/walk"
)

// unmade are the items of a make-safe card that is passed over.
func unmade(asks []walk.SafeAsk) []string {
	var out []string
	for _, ask := range asks {
		out = append(out, ask.Item.ID)
	}
	return out
}

// notMade says of what was passed over on a make-safe card that nobody knows how it
// stands, before a step that does not ask for it by itself. What it does ask for is
// confirmed when the step is shown.
func (s *Session) notMade() []string {
	if says := s.unmadeWords(s.facts.Unmade); says != "" {
		return []string{says}
	}
	return nil
}

// unmadeWords names items that are not as they were asked for; "" for none.
func (s *Session) unmadeWords(items []string) string {
	var titles []string
	for _, id := range items {
		if item := s.bench.Library.Safe[id]; item != nil {
			titles = append(titles, item.Title)
		}
	}
	if len(titles) == 0 {
		return ""
	}
	slices.Sort(titles)
	return "Passed over, so nobody has said how it stands: " + strings.Join(titles, "; ") + ". Look first."
}
