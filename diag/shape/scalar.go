package shape

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
)

// scalars fill the leaves of a shape. Text from outside becomes harmless here,
// once, for everything that is made of it.
var scalars = map[reflect.Type]func(r *Reader, n *yaml.Node, text string, into any){
	reflect.TypeFor[Word](): func(r *Reader, n *yaml.Node, text string, into any) {
		*into.(*Word) = Word{Text: strings.TrimSpace(source.CleanLine(text)), Place: r.At(n)}
	},
	reflect.TypeFor[Prose](): func(r *Reader, n *yaml.Node, text string, into any) {
		*into.(*Prose) = Prose{Text: strings.TrimSpace(source.Clean(text)), Place: r.At(n)}
	},
	reflect.TypeFor[Figure](): func(r *Reader, n *yaml.Node, text string, into any) {
		*into.(*Figure) = Figure{Text: source.CleanLine(text), Origin: r.origin(n, text), Place: r.At(n)}
	},
	reflect.TypeFor[Number]():     (*Reader).number,
	reflect.TypeFor[YesNo]():      (*Reader).yesNo,
	reflect.TypeFor[Expression](): (*Reader).expression,
}

// cutOff is of a remark that was rather meant as part of the text: "The fuse #1".
var cutOff = regexp.MustCompile(`^#[0-9A-Za-z]`)

// scalar is the text of a single value.
func (r *Reader) scalar(n *yaml.Node, what string) (string, bool) {
	switch {
	case n.Kind == yaml.SequenceNode:
		r.Report(CodeWrongKind, r.At(n), what+" must be one value, not a list", "take the brackets away")
	case n.Kind != yaml.ScalarNode:
		r.Report(CodeWrongKind, r.At(n), what+" must be one value, not keys and values", "put a text with a colon or braces in quotes")
	case n.Tag == "!!null" || strings.TrimSpace(source.Clean(n.Value)) == "":
		r.Report(CodeNothing, r.At(n), what+" is empty", "write a value, or take the key away")
	default:
		if n.Style == 0 && cutOff.MatchString(n.LineComment) {
			r.Report(CodeSyntax, r.At(n), fmt.Sprintf("of this text %q is lost: behind a space, # begins a remark", source.CleanLine(n.LineComment)),
				"put the whole text in quotes; if it is a remark, write a space behind the #")
		}
		return n.Value, true
	}
	return "", false
}

func (r *Reader) number(n *yaml.Node, text string, into any) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		r.Report(CodeWrongKind, r.At(n), fmt.Sprintf("%q is not a number", source.CleanLine(text)), "write a number such as 12 or 0.5, without a unit")
		return
	}
	*into.(*Number) = Number{Value: v, Given: true, Place: r.At(n)}
}

func (r *Reader) yesNo(n *yaml.Node, text string, into any) {
	f := YesNo{Given: true, Place: r.At(n)}
	switch strings.ToLower(text) {
	case "true", "yes":
		f.Value = true
	case "false", "no":
	default:
		r.Report(CodeWrongKind, r.At(n), fmt.Sprintf("%q is neither true nor false", source.CleanLine(text)), "write true or false")
		return
	}
	*into.(*YesNo) = f
}

// expression keeps a formula with the place of each of its lines, so that an
// error inside is shown where it stands.
func (r *Reader) expression(n *yaml.Node, text string, into any) {
	e := into.(*Expression)
	*e = Expression{Text: text, Place: r.At(n), Origin: source.Roughly(r.At(n))}
	switch {
	case n.Style&yaml.LiteralStyle != 0:
		e.Text = strings.TrimRight(text, "\n")
		if places, ok := r.block(n, e.Text); ok {
			e.Origin = source.Block(places)
		}
	case n.Style&yaml.FoldedStyle != 0, !r.oneLine(n, text):
		r.Report(CodeFolded, e.Place, "a formula can't be folded over several lines", "write it on one line, or as a block begun with |")
		e.Text = ""
	default:
		e.Origin = r.origin(n, text)
	}
}

// origin finds a text of one line in the file. With an escape inside the quotes
// the text differs from what is written, and places are only rough.
func (r *Reader) origin(n *yaml.Node, text string) source.Origin {
	column := n.Column
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		column++
	}
	if strings.HasPrefix(from(r.line(n.Line), column), text) {
		return source.Of(r.File, n.Line, column, text)
	}
	return source.Roughly(r.At(n))
}

// oneLine says whether a plain or quoted scalar ends on the line it began on.
func (r *Reader) oneLine(n *yaml.Node, text string) bool {
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
func (r *Reader) block(n *yaml.Node, text string) ([]source.Place, bool) {
	var places []source.Place
	for i, line := range strings.Split(text, "\n") {
		written := r.line(n.Line + 1 + i)
		before, ok := strings.CutSuffix(written, line)
		if !ok || strings.TrimSpace(before) != "" {
			return nil, false
		}
		column := len([]rune(before)) + 1
		places = append(places, r.File.At(n.Line+1+i, column, len([]rune(line))))
	}
	return places, true
}

// from is the rest of a line from a column, both in characters.
func from(line string, column int) string {
	runes := []rune(line)
	return string(runes[min(max(column-1, 0), len(runes)):])
}
