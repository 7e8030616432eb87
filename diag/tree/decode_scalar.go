package tree

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
)

// scalars fill the leaves of a shape. Text from outside becomes harmless here,
// once, for everything that is made of it.
var scalars = map[reflect.Type]func(r *reader, n *yaml.Node, text string, into any){
	reflect.TypeFor[word](): func(r *reader, n *yaml.Node, text string, into any) {
		*into.(*word) = word{Text: strings.TrimSpace(cleanLine(text)), Place: r.at(n)}
	},
	reflect.TypeFor[prose](): func(r *reader, n *yaml.Node, text string, into any) {
		*into.(*prose) = prose{Text: strings.TrimSpace(clean(text)), Place: r.at(n)}
	},
	reflect.TypeFor[figure](): func(r *reader, n *yaml.Node, text string, into any) {
		*into.(*figure) = figure{Text: cleanLine(text), Origin: r.origin(n, text), Place: r.at(n)}
	},
	reflect.TypeFor[number]():     (*reader).number,
	reflect.TypeFor[yesNo]():      (*reader).yesNo,
	reflect.TypeFor[expression](): (*reader).expression,
}

// clean and cleanLine make text harmless, and spare the search in text that is
// nothing but printable ASCII.
func clean(text string) string {
	if printable(text) {
		return text
	}
	return source.Clean(text)
}

func cleanLine(text string) string {
	if printable(text) {
		return text
	}
	return source.CleanLine(text)
}

func printable(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// scalar is the text of a single value.
func (r *reader) scalar(n *yaml.Node, what string) (string, bool) {
	switch {
	case n.Kind == yaml.SequenceNode:
		r.report(CodeWrongKind, r.at(n), what+" must be one value, not a list", "take the brackets away")
	case n.Kind != yaml.ScalarNode:
		r.report(CodeWrongKind, r.at(n), what+" must be one value, not keys and values", "put a text with a colon or braces in quotes")
	case n.Tag == "!!null" || strings.TrimSpace(clean(n.Value)) == "":
		r.report(CodeNothing, r.at(n), what+" is empty", "write a value, or take the key away")
	default:
		return n.Value, true
	}
	return "", false
}

func (r *reader) number(n *yaml.Node, text string, into any) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		r.report(CodeWrongKind, r.at(n), fmt.Sprintf("%q is not a number", source.CleanLine(text)), "write a number such as 12 or 0.5, without a unit")
		return
	}
	*into.(*number) = number{Value: v, Given: true, Place: r.at(n)}
}

func (r *reader) yesNo(n *yaml.Node, text string, into any) {
	f := yesNo{Given: true, Place: r.at(n)}
	switch strings.ToLower(text) {
	case "true", "yes":
		f.Value = true
	case "false", "no":
	default:
		r.report(CodeWrongKind, r.at(n), fmt.Sprintf("%q is neither true nor false", source.CleanLine(text)), "write true or false")
		return
	}
	*into.(*yesNo) = f
}

// expression keeps a formula with the place of each of its lines, so that an
// error inside is shown where it stands.
func (r *reader) expression(n *yaml.Node, text string, into any) {
	e := into.(*expression)
	*e = expression{Text: text, Place: r.at(n), Origin: source.Roughly(r.at(n))}
	switch {
	case n.Style&yaml.LiteralStyle != 0:
		e.Text = strings.TrimRight(text, "\n")
		if places, ok := r.block(n, e.Text); ok {
			e.Origin = source.Block(places)
		}
	case n.Style&yaml.FoldedStyle != 0, !r.oneLine(n, text):
		r.report(CodeFolded, e.Place, "a formula can't be folded over several lines", "write it on one line, or as a block begun with |")
		e.Text = ""
	default:
		e.Origin = r.origin(n, text)
	}
}

// origin finds a text of one line in the file. With an escape inside the quotes
// the text differs from what is written, and places are only rough.
func (r *reader) origin(n *yaml.Node, text string) source.Origin {
	column := n.Column
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		column++
	}
	if strings.HasPrefix(from(r.line(n.Line), column), text) {
		return source.Of(r.file, n.Line, column, text)
	}
	return source.Roughly(r.at(n))
}

// oneLine says whether a plain or quoted scalar ends on the line it began on.
func (r *reader) oneLine(n *yaml.Node, text string) bool {
	rest := from(r.line(n.Line), n.Column)
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return closes(rest[min(1, len(rest)):], '"', '\\')
	case n.Style&yaml.SingleQuotedStyle != 0:
		return strings.Contains(rest[min(1, len(rest)):], "'")
	}
	return strings.HasPrefix(rest, text)
}

func closes(text string, quote, escape rune) bool {
	skip := false
	for _, c := range text {
		switch {
		case skip:
			skip = false
		case c == escape:
			skip = true
		case c == quote:
			return true
		}
	}
	return false
}

// block finds each line of a literal block in the file: the line as it stands
// there ends with the line as it was read.
func (r *reader) block(n *yaml.Node, text string) ([]source.Place, bool) {
	var places []source.Place
	for i, line := range strings.Split(text, "\n") {
		written := r.line(n.Line + 1 + i)
		before, ok := strings.CutSuffix(written, line)
		if !ok || strings.TrimSpace(before) != "" {
			return nil, false
		}
		column := len([]rune(before)) + 1
		places = append(places, r.file.At(n.Line+1+i, column, len([]rune(line))))
	}
	return places, true
}

// from is the rest of a line from a column, both in characters.
func from(line string, column int) string {
	runes := []rune(line)
	return string(runes[min(max(column-1, 0), len(runes)):])
}

// fill reads one step, or a step for each outcome.
func (t *thenShape) fill(r *reader, n *yaml.Node, what string) {
	if n.Kind == yaml.MappingNode {
		r.keyed(n, reflect.ValueOf(&t.Routes).Elem(), what)
		return
	}
	r.read(n, reflect.ValueOf(&t.Next).Elem(), what)
}
