package pricebook

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"benchlead/diag/repair"
)

// Find is the first prices, most of them at the most, in which every word stands, each
// by its beginning, in the order of the book, and how many there are in all. Without a
// word that is every price. Capitals don't count. titles gives the name of a part,
// which is searched as well; it may be nil. It is quick enough for every key: some
// milliseconds for ten thousand prices.
func Find(prices []repair.Price, titles func(part string) string, words string, most int) (found []repair.Price, all int) {
	wanted := strings.Fields(strings.ToLower(words))
	known := map[string]string{} // by part: its id and name
	for i := range prices {
		p := &prices[i]
		part, ok := known[p.Part]
		if !ok {
			part = p.Part
			if titles != nil {
				part += " " + titles(p.Part)
			}
			known[p.Part] = part
		}
		if hasAll(wanted, part, string(p.Grade), p.Supplier, p.Number, p.ReplacedBy, p.Set, p.Note) {
			if all++; all <= most {
				found = append(found, *p)
			}
		}
	}
	return found, all
}

// hasAll says whether each word begins a word of one of the texts.
func hasAll(words []string, texts ...string) bool {
	for _, w := range words {
		found := false
		for _, text := range texts {
			if found = begins(text, w); found {
				break
			}
		}
		if !found {
			return false
		}
	}
	return true
}

// begins says whether a word of the text begins with w, which is in small letters.
func begins(text, w string) bool {
	start := true
	for i := range len(text) {
		c := text[i]
		if c >= utf8.RuneSelf {
			return beginsWide(strings.ToLower(text), w)
		}
		c = small[c]
		if start && c == w[0] && len(text)-i >= len(w) && same(text[i:i+len(w)], w) {
			return true
		}
		start = c < '0' || c > 'z' || c > '9' && c < 'a'
	}
	return false
}

// small are the ASCII characters with small letters for capitals.
var small = func() (out [utf8.RuneSelf]byte) {
	for c := range byte(utf8.RuneSelf) {
		out[c] = c
		if 'A' <= c && c <= 'Z' {
			out[c] = c + 'a' - 'A'
		}
	}
	return out
}()

// same says whether the text, up to its first character that isn't ASCII, is w once
// its letters are small.
func same(text, w string) bool {
	for i := range len(w) {
		if text[i] >= utf8.RuneSelf || small[text[i]] != w[i] {
			return false
		}
	}
	return true
}

// beginsWide is begins for text with more than ASCII, in small letters already.
func beginsWide(text, w string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], w)
		if i < 0 {
			return false
		}
		at := from + i
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		if at == 0 || !unicode.IsLetter(before) && !unicode.IsDigit(before) {
			return true
		}
		from = at + 1
	}
}
