package repair

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// deepest is how far a price book may be nested. It needs four.
const deepest = 20

type node = yaml.Node

// fields says what reads the value of each key.
type fields map[string]func(*node)

// reader takes a price book apart and collects what doesn't fit.
type reader struct {
	file   *source.File
	issues source.Issues
}

func (r *reader) report(code source.Code, place source.Place, message, hint string) {
	r.issues = append(r.issues, source.Issue{Code: code, Place: place, Message: message, Hint: hint})
}

func (r *reader) at(n *node) source.Place {
	length := 0
	if n.Kind == yaml.ScalarNode && !strings.Contains(n.Value, "\n") {
		length = utf8.RuneCountInString(n.Value)
		if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
			length += 2
		}
	}
	return r.file.At(max(n.Line, 1), max(n.Column, 1), length)
}

// open is the top of the document, or nil with the issue reported.
func (r *reader) open() *node {
	if _, refused := source.Open(r.file.Name, []byte(r.file.Text)); len(refused) > 0 {
		r.issues = append(r.issues, refused...)
		return nil
	}
	var top node
	limits := loaderlimits.New(loaderlimits.DepthValue(deepest))
	err := yaml.Load([]byte(r.file.Text), &top, yaml.WithPlugin(limits))
	switch {
	case err != nil:
		r.syntax(err)
		return nil
	case top.Kind != yaml.DocumentNode || len(top.Content) != 1:
		r.report(tree.CodeEmpty, r.file.At(1, 1, 0), "the file holds nothing", "begin it with shop:")
		return nil
	}
	return top.Content[0]
}

func (r *reader) syntax(err error) {
	message, mark := err.Error(), yaml.Mark{}
	var one *yaml.LoadError
	var many *yaml.LoadErrors
	switch {
	case errors.As(err, &many) && len(many.Errors) > 0:
		message, mark = many.Errors[0].Message, many.Errors[0].Mark
	case errors.As(err, &one):
		message, mark = one.Message, one.Mark
	}
	place := r.file.At(max(mark.Line, 1), max(mark.Column, 1), 0)
	switch {
	case strings.Contains(message, "no documents"):
		r.report(tree.CodeEmpty, place, "the file holds nothing", "begin it with shop:")
	case strings.Contains(message, "multiple"):
		r.report(tree.CodeSecondDocument, place, `a second document begins ("---")`, "one file holds one price book")
	default:
		r.report(tree.CodeSyntax, place, "this can't be read as YAML: "+source.CleanLine(message),
			"look at quotes, brackets and how the line is indented")
	}
}

// keys reads a mapping with known keys, each at most once.
func (r *reader) keys(n *node, what string, known fields, required ...string) {
	var given []string
	r.pairs(n, what, func(key string, value *node) {
		given = append(given, key)
		if read := known[key]; read != nil {
			read(value)
			return
		}
		names := known.names()
		hint := what + " may have: " + strings.Join(names, ", ")
		if near := source.Nearest(key, names); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		r.report(tree.CodeUnknownField, r.keyPlace(n, key), fmt.Sprintf("%s has no %q", what, source.CleanLine(key)), hint)
	})
	if n.Kind != yaml.MappingNode {
		return
	}
	for _, name := range required {
		if !slices.Contains(given, name) {
			r.report(tree.CodeMissing, r.at(n), fmt.Sprintf("%s lacks %q", what, name), "add "+name+": ...")
		}
	}
}

func (f fields) names() []string {
	var names []string
	for name := range f {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func (r *reader) keyPlace(n *node, key string) source.Place {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return r.at(n.Content[i])
		}
	}
	return r.at(n)
}

// pairs calls do for each key of a mapping.
func (r *reader) pairs(n *node, what string, do func(key string, value *node)) {
	if n.Kind != yaml.MappingNode {
		r.report(tree.CodeWrongKind, r.at(n), what+" must have keys and values", "write key: value, one a line")
		return
	}
	var seen []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		switch {
		case key.Kind != yaml.ScalarNode || key.Tag == "!!merge":
			r.report(tree.CodeWrongKind, r.at(key), "a key must be plain words", "write key: value")
		case slices.Contains(seen, key.Value):
			r.report(tree.CodeDuplicateKey, r.at(key), fmt.Sprintf("%q is written twice", source.CleanLine(key.Value)), "keep one of them")
		default:
			seen = append(seen, key.Value)
			do(key.Value, n.Content[i+1])
		}
	}
}

// items is the list in n.
func (r *reader) items(n *node, what string) []*node {
	if n.Kind != yaml.SequenceNode {
		r.report(tree.CodeWrongKind, r.at(n), what+" must be a list", `write one item a line, each begun with "- "`)
		return nil
	}
	return n.Content
}

// word is text on one line, harmless to print.
func (r *reader) word(n *node) string {
	switch {
	case n.Kind == yaml.AliasNode:
		r.report(tree.CodeAlias, r.at(n), "this refers to another part of the file", "write it out in full")
	case n.Kind != yaml.ScalarNode:
		r.report(tree.CodeWrongKind, r.at(n), "this must be one value", "put a text with a colon or braces in quotes")
	case n.Style&yaml.TaggedStyle != 0:
		r.report(tree.CodeTag, r.at(n), "tags aren't used in these files", "leave it out")
	default:
		text := strings.TrimSpace(source.CleanLine(n.Value))
		if text == "" || n.Tag == "!!null" {
			r.report(tree.CodeNothing, r.at(n), "this is empty", "write a value, or take the key away")
			return ""
		}
		return text
	}
	return ""
}

func (r *reader) oneOf(n *node, words ...string) string {
	text := r.word(n)
	if text == "" || slices.Contains(words, text) {
		return text
	}
	hint := "write one of: " + strings.Join(words, ", ")
	if near := source.Nearest(text, words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.report(CodeWord, r.at(n), fmt.Sprintf("%q is not one of: %s", text, strings.Join(words, ", ")), hint)
	return ""
}

var currencyCode = regexp.MustCompile(`^[A-Z]{3}$`)

func (r *reader) currency(n *node) string {
	text := r.word(n)
	if text != "" && !currencyCode.MatchString(text) {
		r.report(CodeWord, r.at(n), fmt.Sprintf("%q is not a currency code", text), "write three capital letters (ISO 4217), such as USD or EUR")
		return ""
	}
	return text
}

func (r *reader) amount(into *decimal.Decimal) func(*node) {
	return func(n *node) {
		text := r.word(n)
		if text == "" {
			return
		}
		d, err := ParseAmount(text)
		if err != nil {
			r.report(CodeAmount, r.at(n), err.Error(), `amounts look like "84.00"`)
			return
		}
		*into = d
	}
}

func (r *reader) percent(into *decimal.Decimal, limit int64) func(*node) {
	return func(n *node) {
		r.amount(into)(n)
		if into.GreaterThan(decimal.NewFromInt(limit)) {
			r.report(CodeAmount, r.at(n), fmt.Sprintf("%s percent is more than %d", into, limit), "write 7.5 for seven and a half percent")
		}
	}
}

func (r *reader) step(into *decimal.Decimal) func(*node) {
	return func(n *node) {
		before := len(r.issues)
		r.amount(into)(n)
		if len(r.issues) == before && (!into.IsPositive() || into.GreaterThan(hundred)) {
			r.report(CodeAmount, r.at(n), "amounts can't be rounded to "+into.String(), `write the smallest coin, such as "0.01" or "0.05"`)
		}
	}
}

func (r *reader) count(into *int, limit int) func(*node) {
	return func(n *node) {
		text := r.word(n)
		if text == "" {
			return
		}
		v, err := strconv.Atoi(text)
		if err != nil || v < 0 || v > limit {
			r.report(CodeCount, r.at(n), fmt.Sprintf("%q is not a whole number from 0 to %d", text, limit), "write digits such as 4")
			return
		}
		*into = v
	}
}

func (r *reader) yes(into *bool) func(*node) {
	return func(n *node) {
		switch text := r.word(n); strings.ToLower(text) {
		case "yes", "true":
			*into = true
		case "no", "false":
			*into = false
		case "":
		default:
			r.report(CodeWord, r.at(n), fmt.Sprintf("%q is neither yes nor no", text), "write yes or no")
		}
	}
}
