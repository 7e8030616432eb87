package ui

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"benchlead/diag/tree"
)

// Search finds the complaints that words lead to, those in which most of the words
// stand first: in what the owner says and its trouble, or in what the machine is
// called. Only those stay in which as many stand as in the best.
func Search(lib *tree.Library, text string) []Match {
	asked := tokens(text)
	said := map[string]string{}
	for _, t := range lib.Troubles {
		said[t.ID] = t.Title + " " + t.Also
	}
	type hit struct {
		Match
		all, near int
	}
	var hits []hit
	most := 1
	for _, id := range systemIDs(lib) {
		s := lib.Systems[id]
		machine := tokens(s.Title + " " + s.Machine + " " + s.About)
		for _, c := range s.Complaints {
			near := tokens(c.Title)
			h := hit{Match: Match{System: s, Complaint: c}}
			h.near = count(asked, near)
			h.all = count(asked, slices.Concat(near, tokens(said[c.Trouble]), machine))
			hits, most = append(hits, h), max(most, h.all)
		}
	}
	hits = slices.DeleteFunc(hits, func(h hit) bool { return h.all < most })
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(b.near, a.near) })
	var out []Match
	for _, h := range hits {
		out = append(out, h.Match)
	}
	return out
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

// count is how many of the words begin a word of the others, endings aside.
func count(words, others []string) int {
	n := 0
	for _, w := range words {
		if slices.ContainsFunc(others, func(o string) bool { return strings.HasPrefix(o, stem(w)) }) {
			n++
		}
	}
	return n
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
