package shop

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// Entry is one setting in use.
type Entry struct {
	Section string // "shop", "grades: original" ...
	Key     string
	Value   string
	Place   source.Place // in the file; zero: a default
}

// Default says whether nobody wrote it.
func (e Entry) Default() bool { return e.Place.Line == 0 }

// entries lists the settings in the order of the shape.
func (s fileShape) entries() []Entry {
	return list(reflect.ValueOf(s), "")
}

func list(v reflect.Value, section string) []Entry {
	var out []Entry
	for i := range v.NumField() {
		key := v.Type().Field(i).Tag.Get("yaml")
		switch value := v.Field(i).Interface().(type) {
		case source.Place:
		case shape.Word:
			if value.Given() {
				out = append(out, Entry{section, key, value.Text, value.Place})
			}
		case shape.YesNo:
			out = append(out, Entry{section, key, map[bool]string{true: "yes", false: "no"}[value.Value], value.Place})
		case []shape.Word:
			out = append(out, listed(section, key, value))
		case []shape.Pair:
			for _, pair := range value {
				out = append(out, Entry{key, pair.Key.Text, pair.Value.Text, pair.Key.Place})
			}
		default:
			out = append(out, list(v.Field(i), strings.TrimPrefix(section+": "+key, ": "))...)
		}
	}
	return out
}

func listed(section, key string, words []shape.Word) Entry {
	e := Entry{Section: section, Key: key, Value: "none named"}
	var texts []string
	for _, w := range words {
		texts = append(texts, w.Text)
	}
	if len(words) > 0 {
		e.Value, e.Place = strings.Join(texts, ", "), words[0].Place
	}
	return e
}

// CheckMeters reports meters that the trees don't know.
func (s Sheet) CheckMeters(known []string) source.Issues {
	var is source.Issues
	for _, e := range s.Entries {
		if e.Section != "bench" || e.Key != "meters" {
			continue
		}
		for _, id := range s.Meters {
			if slices.Contains(known, id) {
				continue
			}
			issue := source.Issue{
				Code: CodeMeter, Place: e.Place, Message: fmt.Sprintf("no meter is called %q", id),
				Hint: "write the id of a meter of the trees: " + strings.Join(known, ", "),
			}
			if near := source.Nearest(id, known); near != "" {
				issue.Hint = fmt.Sprintf("did you mean %q?", near)
			}
			is = append(is, issue)
		}
	}
	return is
}
