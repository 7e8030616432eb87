package line

import (
	"fmt"
	"regexp"
	"strings"

	"benchlead/diag/source"
)

// A screen reader passes over most signs, and over columns. So that nothing is lost
// they are said in words.
var (
	signs = strings.NewReplacer(" +- ", " plus or minus ", " - ", ": ", "[ ] ", "", " + ", " and ", "?: ", "? ", "\u00b0C", "degrees C")
	aside = regexp.MustCompile(` - ([^.:;]*) - `)
	bar   = regexp.MustCompile(`^ *[#.]{10} +`)
	count = regexp.MustCompile(`^(\d+) {2,}`)
	gap   = regexp.MustCompile(`(\w[\])"]*) {2,}`)
	minus = regexp.MustCompile(`(^|[ (])-(\d)`)
	ohms  = regexp.MustCompile(`(\d )([mkM])ohm\b`)
	bare  = regexp.MustCompile(`, in (m?V|m?A|Ah|[kM]?ohm|mohm|s)\b`)
	times = regexp.MustCompile(`\b(\d+(?:\.\d+)?) (min|h|s)\b`)
	name  = regexp.MustCompile(`^([("]*)([a-z0-9]+(?:_[a-z0-9]+)+)([.,;:)"?]*)$`)
)

// units in words, where no number stands before them.
var units = map[string]string{
	"V": "volts", "mV": "millivolts", "A": "amps", "mA": "milliamps", "Ah": "amp-hours", "s": "seconds",
	"ohm": "ohms", "kohm": "kilohms", "Mohm": "megohms", "mohm": "milliohms",
}

// spans of time in words.
var spans = map[string]string{"s": "second", "min": "minute", "h": "hour"}

// sizes of ohms in words. What else the trade writes as a letter behind a number (12.6
// V, 3 A) stays: it is read as that letter.
var sizes = map[string]string{"m": "milliohm", "k": "kilohm", "M": "megohm"}

// spoken is a line as it can be read aloud: a sentence without signs or columns.
func spoken(line string) string {
	line = strings.TrimSpace(line)
	if strings.HasPrefix(line, "benchlead ") { // to be typed as it stands
		return line
	}
	line = count.ReplaceAllString(line, "$1. ")
	line = gap.ReplaceAllString(line, "$1: ")
	line = minus.ReplaceAllString(line, "${1}minus $2")
	line = ohms.ReplaceAllStringFunc(line, func(s string) string {
		of := ohms.FindStringSubmatch(s)
		return of[1] + sizes[of[2]]
	})
	line = bare.ReplaceAllStringFunc(line, func(s string) string { return ", in " + units[strings.TrimPrefix(s, ", in ")] })
	line = times.ReplaceAllStringFunc(line, func(s string) string {
		of := times.FindStringSubmatch(s)
		if of[1] == "1" {
			return "1 " + spans[of[2]]
		}
		return of[1] + " " + spans[of[2]] + "s"
	})
	return closed(signs.Replace(aside.ReplaceAllString(apart(line), ", $1, ")))
}

// apart says the names of tests with their parts apart, as they may also be typed.
func apart(line string) string {
	words := strings.Split(line, " ")
	for i, w := range words {
		if of := name.FindStringSubmatch(w); of != nil {
			words[i] = of[1] + strings.ReplaceAll(of[2], "_", " ") + of[3]
		}
	}
	return strings.Join(words, " ")
}

// closed ends a line with a full stop, unless it ends otherwise or is to be typed as it
// stands.
func closed(line string) string {
	if line == "" || strings.ContainsAny(line[len(line)-1:], `.:?!`) || strings.HasPrefix(line, "benchlead ") {
		return line
	}
	return line + "."
}

// all writes lines. What stands behind a bar goes on with the line before it.
func (f *Face) all(lines []string) {
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		if i+1 < len(lines) && bar.MatchString(lines[i+1]) {
			i++
			line += ": " + bar.ReplaceAllString(lines[i], "")
		}
		f.Say(line)
	}
}

// choices writes what is chosen from by number.
func (f *Face) choices(list []string) {
	for _, c := range list {
		number, text, _ := strings.Cut(c, " ")
		f.Say(number + ". " + text)
	}
}

// Say writes one line, made harmless and fit to be read aloud, broken at the width of
// the face.
func (f *Face) Say(text string) {
	if f.err != nil {
		return
	}
	width := 0
	if f.Width != nil {
		width = f.Width()
	}
	for _, l := range wrap(spoken(source.CleanLine(text)), width) {
		if _, err := fmt.Fprintln(f.out, l); err != nil {
			f.err = err
			return
		}
	}
}

// sentence is an error with a capital and a full stop.
func sentence(err error) string {
	text := strings.TrimSuffix(err.Error(), ".")
	if text == "" {
		return ""
	}
	return sentenceEnd(strings.ToUpper(text[:1]) + text[1:])
}

// sentenceEnd closes a title with a full stop, unless it ends a sentence
// already.
func sentenceEnd(title string) string {
	if strings.HasSuffix(title, "?") || strings.HasSuffix(title, ".") {
		return title
	}
	return title + "."
}
