package repair

import (
	"reflect"

	"benchlead/diag/shape"
)

// Schema describes price books for editors, as a JSON Schema.
func Schema() map[string]any {
	return form.Schema("a price book of benchlead", shape.Whole{Type: reflect.TypeFor[bookShape]()})
}
