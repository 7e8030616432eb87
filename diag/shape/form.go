package shape

import (
	"reflect"
	"strings"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
)

// Form is what one sort of file may hold: the names of its shapes for messages,
// and their tags, read once for all files. It is never changed.
type Form struct {
	kinds  map[reflect.Type]string
	fields map[reflect.Type]*fields
	begin  string
}

// NewForm describes a sort of file. kinds names each type of shape in messages
// ("a band"); one that is missing there, or has no name, is named by its key.
// begin says what an empty file should begin with; it may be empty.
func NewForm(kinds map[reflect.Type]string, begin string) *Form {
	f := &Form{kinds: kinds, fields: map[reflect.Type]*fields{}, begin: begin}
	for t := range kinds {
		f.fields[t] = readTags(t)
	}
	return f
}

// Parse reads the text as one YAML document. What it reports is that the text
// isn't YAML, or is empty; what the YAML means comes later.
func (f *Form) Parse(file *source.File) (*yaml.Node, source.Issues) {
	node, issues := Parse(file)
	for i := range issues {
		if issues[i].Code == CodeEmpty && f.begin != "" {
			issues[i].Hint = f.begin
		}
	}
	return node, issues
}

// Reader reads one file of this form.
func (f *Form) Reader(file *source.File) *Reader {
	return &Reader{File: file, form: f, lines: strings.Split(file.Text, "\n")}
}

func (f *Form) fieldsOf(t reflect.Type) *fields {
	if known, ok := f.fields[t]; ok {
		return known
	}
	return readTags(t)
}

// Keys is the keys that a shape of type T may have, in its order.
func Keys[T any]() []string { return readTags(reflect.TypeFor[T]()).names }
