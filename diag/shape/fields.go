package shape

import (
	"reflect"
	"strings"
)

// fields is what a shape's tags say.
type fields struct {
	names    []string // in the order of the shape
	byName   map[string]field
	required []string
	plain    []int
	key      []int
}

type field struct {
	index []int
	keyed bool
}

// fieldsOf reads the tags of a shape, once a file. Embedded shapes count as
// written out.
func (r *Reader) fieldsOf(t reflect.Type) *fields {
	if known, ok := r.shapes[t]; ok {
		return known
	}
	fs := readTags(t)
	r.shapes[t] = fs
	return fs
}

func readTags(t reflect.Type) *fields {
	fs := &fields{byName: map[string]field{}}
	for _, f := range reflect.VisibleFields(t) {
		if f.Anonymous {
			continue
		}
		name, is := f.Tag.Get("yaml"), strings.Fields(f.Tag.Get("is"))
		var keyed bool
		for _, flag := range is {
			switch flag {
			case "plain":
				fs.plain = f.Index
			case "key":
				fs.key = f.Index
			case "keyed":
				keyed = true
			case "required":
				if name != "" {
					fs.required = append(fs.required, name)
				}
			}
		}
		if name != "" {
			fs.names = append(fs.names, name)
			fs.byName[name] = field{index: f.Index, keyed: keyed}
		}
	}
	return fs
}
