package tree

import (
	"reflect"

	"benchlead/diag/shape"
)

// Schema describes tree files for editors, as a JSON Schema: which keys each sort
// of file may have, and which it must. Load checks far more.
func Schema() map[string]any {
	return form.Schema("a tree file of benchlead",
		shape.Whole{Key: "circuit", Type: reflect.TypeFor[circuitShape]()},
		shape.Whole{Key: "fragment", Type: reflect.TypeFor[fragmentShape]()},
		shape.Whole{Key: "system", Type: reflect.TypeFor[systemShape]()},
		shape.Whole{Key: "shared", Type: reflect.TypeFor[sharedShape]()},
		shape.Whole{Key: "tree", Type: reflect.TypeFor[treeShape]()},
		shape.Whole{Type: reflect.TypeFor[stockShape]()},
	)
}
