package shape

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"benchlead/diag/source"
)

// leftOpen finds a quote that is opened in one of the first lines and not closed on
// that line, and whose next quote stands where none can end: what the reader of YAML
// then complains of may be many lines below.
func leftOpen(file *source.File, upTo int) (source.Place, bool) {
	lines := strings.Split(file.Text, "\n")
	for i := 0; i < min(upTo, len(lines)); i++ {
		at, quote := walkQuotes(lines[i], nil)
		if at < 0 {
			continue
		}
		next, rest := i+1, ""
		for ; next < len(lines); next++ {
			if _, after, found := strings.Cut(lines[next], string(quote)); found {
				rest = strings.TrimLeft(after, " \r")
				break
			}
		}
		if next == len(lines) || rest != "" && !strings.ContainsRune(",}]#", rune(rest[0])) {
			return file.At(i+1, at+1, 1), true
		}
		i = next // a text in quotes of several lines
	}
	return source.Place{}, false
}

// inSingle is a text in single quotes that an apostrophe ends.
var inSingle = regexp.MustCompile(`(?:^|[:-] +|[\[{,] *)'[^']*[A-Za-z]'[A-Za-z]`)

// apostrophe finds one in the first lines that ends a text in single quotes.
func apostrophe(file *source.File, upTo int) (source.Place, bool) {
	lines := strings.Split(file.Text, "\n")
	for i := 0; i < min(upTo, len(lines)); i++ {
		if at := inSingle.FindStringIndex(lines[i]); at != nil {
			const before = 1 // the letter behind the apostrophe
			return file.At(i+1, utf8.RuneCountInString(lines[i][:at[1]])-before, 1), true
		}
	}
	return source.Place{}, false
}

// walkQuotes goes through what of a line stands outside quotes. It gives the column,
// from 0, and the sort of a quote that is still open at its end; -1 when none is.
func walkQuotes(line string, outside func(at int, r rune)) (open int, quote rune) {
	open, before, skip := -1, ' ', false
	fresh := true // a quote that stands here would begin a text
	for at, r := range []rune(line) {
		switch {
		case skip:
			skip = false
		case open >= 0:
			skip = quote == '"' && r == '\\'
			if r == quote {
				open, fresh = -1, false
			}
		case r == '#' && before == ' ':
			return -1, 0
		case (r == '"' || r == '\'') && fresh:
			open, quote = at, r
		default:
			if outside != nil {
				outside(at, r)
			}
			fresh = strings.ContainsRune("[{,", r) || r == ' ' && (fresh || before == ':' || before == '-')
		}
		before = r
	}
	return open, quote
}
