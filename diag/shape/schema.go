package shape

import (
	"reflect"
	"strings"
)

// Whole is one sort of file that a Schema describes. Key is the key by which it is
// known; the last one of a list may have none.
type Whole struct {
	Key  string
	Type reflect.Type
}

// Schema describes files of this form for editors, as a JSON Schema
// (https://json-schema.org/draft/2020-12): which keys there are, which are
// required, and what kind of value each has. What the words mean it can't say: that
// is for whoever checks the file.
func (f *Form) Schema(title string, wholes ...Whole) map[string]any {
	s := &schema{form: f, defs: map[string]any{}}
	out := s.choose(wholes)
	out["$schema"], out["title"] = "https://json-schema.org/draft/2020-12/schema", title
	out["$defs"] = s.defs
	return out
}

// choose is the sort of file by its key.
func (s *schema) choose(wholes []Whole) map[string]any {
	first := s.of(wholes[0].Type)
	if len(wholes) == 1 {
		return first
	}
	return map[string]any{
		"if":   map[string]any{"required": []string{wholes[0].Key}},
		"then": first,
		"else": s.choose(wholes[1:]),
	}
}

// schema collects the definitions of the shapes that it meets.
type schema struct {
	form *Form
	defs map[string]any
}

// of describes a value of a type.
func (s *schema) of(t reflect.Type) map[string]any {
	if _, ok := scalars[t]; ok {
		return map[string]any{"type": scalarTypes(t)}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return s.of(t.Elem())
	case reflect.Slice:
		return map[string]any{"type": "array", "items": s.of(t.Elem())}
	}
	name := s.name(t)
	if _, ok := s.defs[name]; !ok {
		s.defs[name] = nil // it may hold itself
		s.defs[name] = s.shape(t)
	}
	return map[string]any{"$ref": "#/$defs/" + name}
}

// scalarTypes are the types that YAML may read a value as: a word may look like a
// number, and a formula may be one.
func scalarTypes(t reflect.Type) any {
	switch t {
	case reflect.TypeFor[Number]():
		return []string{"number", "string"}
	case reflect.TypeFor[YesNo]():
		return []string{"boolean", "string"}
	}
	return []string{"string", "number", "boolean"}
}

// name is a definition's: what the messages call the shape.
func (s *schema) name(t reflect.Type) string {
	words := strings.Trim(s.form.kinds[t], `"`)
	for _, article := range []string{"a ", "an ", "the "} {
		words = strings.TrimPrefix(words, article)
	}
	if words == "" {
		return strings.TrimSuffix(t.Name(), "Shape")
	}
	return strings.ReplaceAll(words, " ", "-")
}

// shape describes a struct: its keys, or the one value that stands for it.
func (s *schema) shape(t reflect.Type) map[string]any {
	if own, ok := reflect.New(t).Interface().(interface{ Kinds() []reflect.Type }); ok {
		var kinds []map[string]any
		for _, kind := range own.Kinds() {
			kinds = append(kinds, s.keyedOrPlain(kind))
		}
		return oneOf(kinds...)
	}
	fields := s.form.fieldsOf(t)
	properties := map[string]any{}
	for name, f := range fields.byName {
		of := t.FieldByIndex(f.index).Type
		if f.keyed {
			properties[name] = s.keyed(of.Elem())
			continue
		}
		properties[name] = s.of(of)
	}
	object := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	var required []string
	for _, name := range fields.required {
		if _, ok := fields.byName[name]; ok {
			required = append(required, name)
		}
	}
	if len(required) > 0 {
		object["required"] = required
	}
	switch {
	case fields.plain == nil:
		return object
	case len(properties) == 0:
		return s.of(t.FieldByIndex(fields.plain).Type)
	}
	return oneOf(s.of(t.FieldByIndex(fields.plain).Type), object)
}

// keyedOrPlain describes a list of pairs, which is written as keys and values, or
// any other value.
func (s *schema) keyedOrPlain(t reflect.Type) map[string]any {
	if t.Kind() == reflect.Slice && s.form.fieldsOf(t.Elem()).key != nil {
		return s.keyed(t.Elem())
	}
	return s.of(t)
}

// keyed describes what is written as keys of one's own choice with a value each.
func (s *schema) keyed(t reflect.Type) map[string]any {
	return map[string]any{"type": "object", "additionalProperties": s.of(t)}
}

func oneOf(kinds ...map[string]any) map[string]any { return map[string]any{"anyOf": kinds} }
