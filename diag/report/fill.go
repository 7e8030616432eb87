package report

import "reflect"

// fill makes every list that has nothing in it empty instead of nil, at any
// depth: other programs read an empty list where they expect one.
func (d *Document) fill() { fill(reflect.ValueOf(d).Elem()) }

func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Slice:
		if v.IsNil() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		for i := range v.Len() {
			fill(v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			fill(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i))
			}
		}
	}
}
