package record

import (
	"strings"
	"unicode"
)

// longestWord is how many characters of a word count: no one types more.
const longestWord = 32

// Words are the words of a text as they are looked for: runs of letters and
// digits, in small letters, cut after 32 characters.
func Words(text string) []string {
	fields := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r)
	})
	for i, w := range fields {
		fields[i] = cut(w, longestWord)
	}
	return fields
}

// cut is the text up to so many characters.
func cut(text string, most int) string {
	n := 0
	for at := range text {
		if n == most {
			return text[:at]
		}
		n++
	}
	return text
}
