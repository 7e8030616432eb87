package ui

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"benchlead/diag/tree"
)

// Search finds the complaints that words lead to, the best first. A word counts most
// in what the owner says, less in the trouble, least in what the machine is called;
// what has well under the count of the best is left out.
func Search(lib *tree.Library, text string) []Match {
	asked := tokens(text)
	said := map[string]string{}
	for _, t := range lib.Troubles {
		said[t.ID] = t.Title + " " + t.Also
	}
	type hit struct {
		Match
		score int
	}
	var hits []hit
	best := 0
	for _, id := range systemIDs(lib) {
		s := lib.Systems[id]
		machine := tokens(s.Title + " " + s.Machine + " " + s.About)
		for _, c := range s.Complaints {
			h := hit{Match: Match{System: s, Complaint: c}}
			for _, w := range asked {
				h.score += weight(w, tokens(c.Title), tokens(said[c.Trouble]), machine)
			}
			hits, best = append(hits, h), max(best, h.score)
		}
	}
	const enough = 0.7
	hits = slices.DeleteFunc(hits, func(h hit) bool { return h.score == 0 || float64(h.score) < enough*float64(best) })
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(b.score, a.score) })
	var out []Match
	for _, h := range hits {
		out = append(out, h.Match)
	}
	return out
}

// weight is what a word counts by the first of these in which it stands.
func weight(word string, said, trouble, machine []string) int {
	switch {
	case stands(word, said):
		return 4
	case stands(word, trouble):
		return 2
	case stands(word, machine):
		return 1
	}
	return 0
}

// fillers are words that say nothing of a machine.
var fillers = map[string]bool{
	"a": true, "an": true, "and": true, "at": true, "by": true, "do": true, "does": true, "for": true, "i": true, "in": true, "is": true,
	"it": true, "its": true, "my": true, "of": true, "on": true, "or": true, "out": true, "the": true, "to": true, "up": true, "when": true,
	"will": true, "with": true, "you": true, "has": true, "have": true, "get": true, "gets": true,
}

// nots are the short forms that all say not.
var nots = map[string]bool{"wont": true, "doesnt": true, "dont": true, "cant": true, "isnt": true, "no": true, "not": true, "never": true, "nothing": true}

// tokens are the words of a text that say something, in small letters.
func tokens(text string) []string {
	text = strings.NewReplacer("'", "", "\u2019", "").Replace(strings.ToLower(text))
	var out []string
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		switch {
		case nots[w]:
			out = append(out, "not")
		case !fillers[w]:
			out = append(out, w)
		}
	}
	return out
}

// stands says whether the word begins one of the others, endings aside.
func stands(word string, others []string) bool {
	return slices.ContainsFunc(others, func(o string) bool { return strings.HasPrefix(o, stem(word)) })
}

// stem is a word without the ending that it has for many, or for going on.
func stem(word string) string {
	for _, ending := range []string{"ing", "ed", "es", "s"} {
		if short := strings.TrimSuffix(word, ending); short != word && len(short) >= 4 {
			return short
		}
	}
	return word
}
