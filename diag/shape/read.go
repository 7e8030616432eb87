package shape

import (
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
)

// Reader fills shapes from one file's YAML and collects what doesn't fit.
type Reader struct {
	File   *source.File
	Issues source.Issues

	form    *Form
	lines   []string // of the file
	aliased bool     // a reference was reported
}

// NewReader reads one file of a sort of which there are few. kinds is as in
// NewForm.
func NewReader(file *source.File, kinds map[reflect.Type]string) *Reader {
	return NewForm(kinds, "").Reader(file)
}

// line is a line of the file, counted from 1; empty where there is none.
func (r *Reader) line(n int) string {
	if n < 1 || n > len(r.lines) {
		return ""
	}
	return r.lines[n-1]
}

// Read fills the shape that into points to from n. what names the whole for
// messages. A shape with a method Fill reads itself.
func (r *Reader) Read(n *yaml.Node, into any, what string) {
	r.read(n, reflect.ValueOf(into).Elem(), what)
}

// Keyed fills the list that into points to from a mapping: an item a key.
func (r *Reader) Keyed(n *yaml.Node, into any, what string) {
	r.keyed(n, reflect.ValueOf(into).Elem(), what)
}

// At is the place of a node.
func (r *Reader) At(n *yaml.Node) source.Place {
	length := 0
	if n.Kind == yaml.ScalarNode && !strings.Contains(n.Value, "\n") {
		length = utf8.RuneCountInString(n.Value)
		if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
			length += 2
		}
	}
	line := min(max(n.Line, 1), len(r.lines)) // an empty value may be placed after the end
	return r.File.At(line, max(n.Column, 1), length)
}

// Report adds an issue.
func (r *Reader) Report(code source.Code, place source.Place, message, hint string) {
	r.Issues = append(r.Issues, source.Issue{Code: code, Place: place, Message: message, Hint: hint})
}

// read fills the shape v from n. what names the thing for messages.
func (r *Reader) read(n *yaml.Node, v reflect.Value, what string) {
	switch {
	case n.Kind == yaml.AliasNode:
		r.alias(n, `"*`+n.Value+`" refers to another part of the file`)
		return
	case n.Style&yaml.TaggedStyle != 0:
		r.Report(CodeTag, r.At(n), fmt.Sprintf("the tag %q isn't used in these files", n.Tag), "leave it out")
		return
	}
	if fill, ok := scalars[v.Type()]; ok {
		if text, ok := r.scalar(n, what); ok {
			fill(r, n, text, v.Addr().Interface())
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		r.read(n, v.Elem(), what)
	case reflect.Slice:
		r.list(n, v, what)
	case reflect.Struct:
		r.mapping(n, v, what, nil)
	}
}

// alias reports the first reference in a file: whoever uses one uses many.
func (r *Reader) alias(n *yaml.Node, message string) {
	if !r.aliased {
		r.Report(CodeAlias, r.At(n), message, "write it out in full; these files have no references")
	}
	r.aliased = true
}

func (r *Reader) list(n *yaml.Node, v reflect.Value, what string) {
	if n.Kind != yaml.SequenceNode {
		r.Report(CodeWrongKind, r.At(n), fmt.Sprintf("%s must be a list", what), r.asList(n))
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content)))
	one := "an item of " + what
	for i, item := range n.Content {
		r.read(item, v.Index(i), one)
	}
}

func (r *Reader) asList(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode && n.Value != "" && !strings.Contains(n.Value, "\n") {
		return fmt.Sprintf("write [%s]", n.Value)
	}
	return `write one item a line, each begun with "- "`
}

// keyed reads a list that is written as a mapping from an id to the rest.
func (r *Reader) keyed(n *yaml.Node, v reflect.Value, what string) {
	if n.Kind != yaml.MappingNode {
		r.Report(CodeWrongKind, r.At(n), fmt.Sprintf("%s must be written as name: value", what), "write {name: value}")
		return
	}
	seen := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if !r.fresh(n.Content[i], seen) {
			continue
		}
		item := reflect.New(v.Type().Elem()).Elem()
		r.mapping(n.Content[i+1], item, n.Content[i].Value, n.Content[i])
		v.Set(reflect.Append(v, item))
	}
}

// fresh says whether the key is a word that wasn't there before.
func (r *Reader) fresh(key *yaml.Node, seen map[string]*yaml.Node) bool {
	switch {
	case key.Kind != yaml.ScalarNode:
		r.Report(CodeWrongKind, r.At(key), "a key must be one word", "write key: value")
		return false
	case key.Tag == "!!merge":
		r.alias(key, `"<<" merges another part of the file`)
		return false
	case seen[key.Value] != nil:
		r.Report(CodeDuplicateKey, r.At(key),
			fmt.Sprintf("%q is written twice; the first is on line %d", key.Value, seen[key.Value].Line), "keep one of them")
		return false
	}
	seen[key.Value] = key
	return true
}

// mapping fills the struct v. key is the node of its own key, in keyed lists.
func (r *Reader) mapping(n *yaml.Node, v reflect.Value, what string, key *yaml.Node) {
	fields := r.form.fieldsOf(v.Type())
	if fields.place != nil {
		*v.FieldByIndex(fields.place).Addr().Interface().(*source.Place) = r.At(n)
	}
	if own, ok := v.Addr().Interface().(interface {
		Fill(r *Reader, n *yaml.Node, what string)
	}); ok {
		own.Fill(r, n, what)
		return
	}
	if key != nil && fields.key != nil {
		r.read(key, v.FieldByIndex(fields.key), what)
	}
	if n.Kind != yaml.MappingNode {
		r.plain(n, v, what, fields)
		return
	}
	if kind := r.form.kinds[v.Type()]; kind != "" {
		what = kind
	}
	given := r.entries(n, v, what, fields)
	r.missing(n, what, fields, given, key)
}

func (r *Reader) plain(n *yaml.Node, v reflect.Value, what string, fields *fields) {
	if fields.plain != nil && n.Kind != yaml.MappingNode {
		r.read(n, v.FieldByIndex(fields.plain), what)
		return
	}
	if n.Kind == yaml.AliasNode {
		r.read(n, reflect.New(reflect.TypeFor[Word]()).Elem(), what)
		return
	}
	hint := "write it as key: value, one a line"
	if len(fields.names) > 0 {
		hint = "write " + fields.names[0] + ": ..."
	}
	r.Report(CodeWrongKind, r.At(n), fmt.Sprintf("%s must have keys and values", what), hint)
}

// entries reads the keys that are there, and says which.
func (r *Reader) entries(n *yaml.Node, v reflect.Value, what string, fields *fields) map[string]bool {
	given, seen, cut := map[string]bool{}, map[string]*yaml.Node{}, false
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if !r.fresh(key, seen) {
			for _, name := range fields.required {
				given[name] = given[name] || key.Tag == "!!merge"
			}
			continue
		}
		field, ok := fields.byName[key.Value]
		if !ok {
			tail := cut && value.Tag == "!!null" // more of one text cut up by its commas
			cut = value.Tag == "!!null"
			if !tail {
				given[r.unknownField(key, value, what, fields)] = true
			}
			continue
		}
		given[key.Value] = true
		if field.keyed {
			r.keyed(value, v.FieldByIndex(field.index), field.said)
			continue
		}
		r.read(value, v.FieldByIndex(field.index), field.said)
	}
	return given
}

// unknownField reports a key, and returns the one that was probably meant: it
// isn't missing then.
func (r *Reader) unknownField(key, value *yaml.Node, what string, fields *fields) string {
	name := source.CleanLine(key.Value)
	near := source.Nearest(key.Value, fields.names)
	hint := what + " may have: " + strings.Join(fields.names, ", ")
	switch {
	case near != "":
		hint = fmt.Sprintf("did you mean %q?", near)
	case value.Tag == "!!null":
		hint = "put a text or formula that holds a comma in quotes"
	}
	r.Report(CodeUnknownField, r.At(key), fmt.Sprintf("%s has no %q", what, name), hint)
	return near
}

func (r *Reader) missing(n *yaml.Node, what string, fields *fields, given map[string]bool, key *yaml.Node) {
	place := r.At(n)
	if key != nil {
		place = r.At(key)
	} else if len(n.Content) > 0 {
		place = r.At(n.Content[0])
	}
	var lacks []string
	for _, name := range fields.required {
		if !given[name] {
			lacks = append(lacks, name)
		}
	}
	if len(lacks) > 0 {
		r.Report(CodeMissing, place, fmt.Sprintf("%s lacks %s", what, Quoted(lacks)), "add "+lacks[0]+": ...")
	}
}

// Quoted is the names in quotes, joined for a message: "a", "b" and "c".
func Quoted(names []string) string {
	var q []string
	for _, n := range names {
		q = append(q, fmt.Sprintf("%q", n))
	}
	if len(q) < 2 {
		return strings.Join(q, "")
	}
	return strings.Join(q[:len(q)-1], ", ") + " and " + q[len(q)-1]
}
