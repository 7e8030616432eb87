package tree

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// Term is a word of the trade with what it means.
type Term struct {
	Word   string
	Also   []string // other forms of it, and other names of the same thing
	Means  string
	Basis  string // "practice", "memory", or the id of a source
	Source string // the source as it is cited
}

// termForm is of words that a text may hold as they are written in the list.
var termForm = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+/' -]*$`)

// terms takes in the words of the trade. Each form stands for one of them.
func (b *builder) terms() {
	known := newRegister("word", "", "words")
	for _, s := range b.stockShapes {
		for _, shape := range s.Words {
			forms := append([]word{shape.Word}, shape.Also...)
			fresh := true
			for _, form := range forms {
				lower := word{Text: FoldTerm(form.Text), Place: form.Place}
				if !form.Given() {
					continue
				}
				if !termForm.MatchString(form.Text) {
					b.report(CodeBadID, form.Place, "a word of the trade is letters and digits, with spaces and - + / between them", "write it as it stands in the texts")
				}
				fresh = b.add(known, lower, anyForm) && fresh
			}
			if !fresh || !shape.Word.Given() {
				continue
			}
			_, cite := b.basis(shape.Basis)
			b.lib.Terms = append(b.lib.Terms, Term{
				Word: b.title(shape.Word), Also: texts(shape.Also), Means: b.tell(shape.Means), Basis: shape.Basis.Text, Source: cite,
			})
		}
	}
	slices.SortFunc(b.lib.Terms, func(x, y Term) int {
		return cmp.Compare(strings.ToLower(x.Word), strings.ToLower(y.Word))
	})
}

// anyForm lets a register count what was looked at already.
var anyForm = regexp.MustCompile(`.`)

// FoldTerm is a text in which words of the trade are looked for: in small letters, but for
// the one pair in which a letter's size makes a billionfold.
func FoldTerm(text string) string {
	return strings.ToLower(strings.ReplaceAll(text, "Mohm", "megohm"))
}

// Forms are the word and its other forms.
func (t Term) Forms() []string { return append([]string{t.Word}, t.Also...) }

// TermsIn are the words of the trade that stand in a text, in the order of the list.
// One that is part of a longer one there is not meant.
func (l *Library) TermsIn(text string) []Term {
	low := FoldTerm(text)
	type form struct {
		text string
		term int
	}
	var forms []form
	for i, t := range l.Terms {
		for _, f := range t.Forms() {
			forms = append(forms, form{FoldTerm(f), i})
		}
	}
	slices.SortStableFunc(forms, func(a, b form) int { return cmp.Compare(len(b.text), len(a.text)) })
	stand := make([]bool, len(l.Terms))
	for _, f := range forms {
		var found bool
		if low, found = blanked(low, f.text); found {
			stand[f.term] = true
		}
	}
	var out []Term
	for i, t := range l.Terms {
		if stand[i] {
			out = append(out, t)
		}
	}
	return out
}

// blanked is a text with a form blanked wherever it stands as words of their own, and
// whether it did.
func blanked(text, form string) (string, bool) {
	found := false
	for from := 0; ; {
		at := strings.Index(text[from:], form)
		if at < 0 {
			return text, found
		}
		at += from
		end := at + len(form)
		from = end
		if inWord(text, at, end) {
			continue
		}
		text = text[:at] + strings.Repeat("\x00", len(form)) + text[end:]
		found = true
	}
}

// inWord says whether a place in a text is only a part of a word there.
func inWord(text string, at, end int) bool {
	return at > 0 && isLetter(text[at-1]) || end < len(text) && isLetter(text[end])
}

func isLetter(c byte) bool {
	return unicode.IsLetter(rune(c)) || unicode.IsDigit(rune(c)) || c >= 0x80
}
