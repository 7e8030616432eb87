package shape

import (
	"reflect"
	"strings"

	"benchlead/diag/source"
)

// fields is what a shape's tags say.
type fields struct {
	names    []string // in the order of the shape
	byName   map[string]field
	required []string
	plain    []int
	key      []int
	place    []int
}

type field struct {
	index []int
	said  string // the key, quoted, for messages
	keyed bool
}

var placeType = reflect.TypeFor[source.Place]()

// readTags reads the tags of a shape. Embedded shapes count as written out.
func readTags(t reflect.Type) *fields {
	fs := &fields{byName: map[string]field{}}
	for _, f := range reflect.VisibleFields(t) {
		if f.Anonymous {
			continue
		}
		if f.Name == "Place" && f.Type == placeType {
			fs.place = f.Index
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
			fs.byName[name] = field{index: f.Index, said: `"` + name + `"`, keyed: keyed}
		}
	}
	return fs
}
