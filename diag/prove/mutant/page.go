package mutant

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// page is one file whose text is edited, and the mutants made of it so far.
type page struct {
	*source.File
	lib   *tree.Library
	lines []int // the byte at which each line begins
	made  []Mutant
	err   error
}

func lineStarts(text string) []int {
	out := []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			out = append(out, i+1)
		}
	}
	return out
}

// fail keeps the first error.
func (p *page) fail(n *yaml.Node, why string) {
	if p.err == nil {
		p.err = fmt.Errorf("%s:%d:%d: %s", p.Name, n.Line, n.Column, why)
	}
}

// place is where a node of one line stands.
func (p *page) place(n *yaml.Node) source.Place {
	return p.At(n.Line, n.Column, utf8.RuneCountInString(n.Value))
}

// offset is the byte at which a node begins.
func (p *page) offset(n *yaml.Node) int {
	at := p.lines[n.Line-1]
	for range n.Column - 1 {
		_, size := utf8.DecodeRuneInString(p.Text[at:])
		at += size
	}
	return at
}

// line is the text of a line counted from 0, without its end.
func (p *page) line(i int) string {
	text := p.Text[p.lines[i]:]
	if end := strings.IndexByte(text, '\n'); end >= 0 {
		return text[:end]
	}
	return text
}

// span is from where to where a word or formula stands in the text, quotes and
// all.
func (p *page) span(n *yaml.Node) (from, to int) {
	from = p.offset(n)
	switch {
	case n.Kind != yaml.ScalarNode:
		p.fail(n, "a word or a formula should stand here")
		return from, from
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return from, p.quoted(from, '"')
	case n.Style&yaml.SingleQuotedStyle != 0:
		return from, p.quoted(from, '\'')
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return from, p.block(n)
	case strings.HasPrefix(p.Text[from:], n.Value):
		return from, from + len(n.Value)
	}
	p.fail(n, "write this on one line")
	return from, from
}

// quoted is the end of a text in quotes. A quote inside is doubled, or stands
// behind a backslash.
func (p *page) quoted(from int, quote byte) int {
	for i := from + 1; i < len(p.Text); i++ {
		switch {
		case p.Text[i] == '\\' && quote == '"':
			i++
		case p.Text[i] == quote && quote == '\'' && strings.HasPrefix(p.Text[i+1:], "'"):
			i++
		case p.Text[i] == quote:
			return i + 1
		}
	}
	return len(p.Text)
}

// block is the end of a text begun with | or >: the lines that stand as far in as
// its first.
func (p *page) block(n *yaml.Node) int {
	last, least := n.Line-1, 0
	for i := n.Line; i < len(p.lines); i++ {
		line := p.line(i)
		if strings.TrimSpace(line) == "" {
			continue
		}
		if least == 0 {
			least = indent(line)
		}
		if indent(line) < least {
			break
		}
		last = i
	}
	return p.lines[last] + len(p.line(last))
}

func indent(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// value is what stands at a key of a mapping; nil when it has no such key.
func value(n *yaml.Node, key string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// items are those of a list; none of anything else.
func items(n *yaml.Node) []*yaml.Node {
	if n == nil || n.Kind != yaml.SequenceNode {
		return nil
	}
	return n.Content
}

// word is the text at a key; empty when there is none.
func word(n *yaml.Node, key string) string {
	if v := value(n, key); v != nil {
		return v.Value
	}
	return ""
}
