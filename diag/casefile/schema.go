package casefile

import (
	"reflect"

	"benchlead/diag/shape"
)

// Schema describes case files for editors, as a JSON Schema.
func Schema() map[string]any {
	return form.Schema("a case file of benchlead", shape.Whole{Type: reflect.TypeFor[caseShape]()})
}
