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
func storable(v any) error {
	return storableAt("", reflect.ValueOf(v))
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
