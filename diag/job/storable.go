package job

import (
	"fmt"
	"math"
	"reflect"
	"unicode/utf8"
)

// storable says whether every text and number of an event comes back from the
// record exactly as it went in. JSON has no NaN and no infinity, and text that
// is not UTF-8 would be changed without a word.
func storable(e Event) error {
	if u := unfitIn(reflect.ValueOf(&e).Elem()); u != nil {
		return u.tell(u.path)
	}
	return nil
}

// storableText says whether a text alone comes back as it went in.
func storableText(what, text string) error {
	if !utf8.ValidString(text) {
		return notText(what)
	}
	return nil
}

// unfit is what can't be stored. Its path is put together on the way back from
// it: nearly every event of a log is in order, and needs none.
type unfit struct {
	path string // "Read.Reading.Value"
	tell func(path string) error
}

// in puts a step before the path.
func (u *unfit) in(step string) *unfit {
	if u.path != "" && u.path[0] != '[' {
		step += "."
	}
	u.path = step + u.path
	return u
}

// unfitIn is the first thing in a value that can't be stored, or nil.
func unfitIn(v reflect.Value) *unfit {
	switch v.Kind() {
	case reflect.String:
		if !utf8.ValidString(v.String()) {
			return &unfit{tell: notText}
		}
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return &unfit{tell: func(path string) error {
				return fmt.Errorf("%s is %v; only finite numbers can be saved", path, f)
			}}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return unfitIn(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if u := unfitIn(v.Field(i)); u != nil {
				return u.in(v.Type().Field(i).Name)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if u := unfitIn(v.Index(i)); u != nil {
				return u.in(fmt.Sprintf("[%d]", i))
			}
		}
	case reflect.Map:
		return unfitInMap(v)
	}
	return nil
}

func unfitInMap(v reflect.Value) *unfit {
	for each := v.MapRange(); each.Next(); {
		if unfitIn(each.Key()) != nil {
			return &unfit{tell: func(path string) error { return notText("a name in " + path) }}
		}
		if u := unfitIn(each.Value()); u != nil {
			return u.in(fmt.Sprint(each.Key()))
		}
	}
	return nil
}

func notText(path string) error {
	return fmt.Errorf("the text of %s is not UTF-8; clean it before it is saved", path)
}
