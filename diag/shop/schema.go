package shop

import (
	"reflect"

	"benchlead/diag/shape"
)

// Schema describes a shop's settings for editors, as a JSON Schema.
func Schema() map[string]any {
	return form.Schema("a shop's settings for benchlead", shape.Whole{Type: reflect.TypeFor[fileShape]()})
}
