package job

import (
	"fmt"
	"math"
	"reflect"
	"unicode/utf8"
)

// storable says whether every text and number of a value comes back from the
// record exactly as it went in. JSON has no NaN and no infinity, and text that
// is not UTF-8 would be changed without a word.
func storable(e Event) error {
	if clean(reflect.ValueOf(&e).Elem()) {
		return nil
	}
	return storableAt("", reflect.ValueOf(e))
}

// clean says whether storableAt has nothing to say. It is asked of every event
// of a log, and so builds no paths.
func clean(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.String:
		return utf8.ValidString(v.String())
	case reflect.Float64:
		f := v.Float()
		return !math.IsNaN(f) && !math.IsInf(f, 0)
	case reflect.Pointer:
		return v.IsNil() || clean(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			if !clean(v.Field(i)) {
				return false
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if !clean(v.Index(i)) {
				return false
			}
		}
	case reflect.Map:
		return cleanMap(v)
	}
	return true
}

func cleanMap(v reflect.Value) bool {
	for each := v.MapRange(); each.Next(); {
		if !clean(each.Key()) || !clean(each.Value()) {
			return false
		}
	}
	return true
}

func storableAt(path string, v reflect.Value) error {
	switch v.Kind() {
	case reflect.String:
		if !utf8.ValidString(v.String()) {
			return fmt.Errorf("the text of %s is not UTF-8; clean it before it is saved", path)
		}
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return fmt.Errorf("%s is %v; only finite numbers can be saved", path, f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return storableAt(path, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if err := storableAt(below(path, v.Type().Field(i).Name), v.Field(i)); err != nil {
				return err
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := storableAt(fmt.Sprintf("%s[%d]", path, i), v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Map:
		return storableMap(path, v)
	}
	return nil
}

func storableMap(path string, v reflect.Value) error {
	for _, key := range v.MapKeys() {
		if err := storableAt("a name in "+path, key); err != nil {
			return err
		}
		if err := storableAt(below(path, fmt.Sprint(key)), v.MapIndex(key)); err != nil {
			return err
		}
	}
	return nil
}

func below(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
