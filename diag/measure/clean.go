package measure

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// clean makes text harmless to print: whatever is not a visible character
// (controls, escape sequences' beginnings, text-direction and zero-width
// marks, broken UTF-8, odd spaces) becomes a space, and spaces are gathered.
// Nothing is joined by it, so that "1<mark>2" can't turn into 12.
func clean(text string) string {
	visible := strings.Map(func(r rune) rune {
		if r == utf8.RuneError || !unicode.IsGraphic(r) || unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, text)
	return strings.Join(strings.Fields(visible), " ")
}
