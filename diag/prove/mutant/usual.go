package mutant

import (
	"benchlead/diag/formula"
	"benchlead/diag/tree"
)

// usual is a label left at its defaults, on a mild day.
func usual(sys *tree.System) formula.Values {
	const mild = 20 // degC
	return sys.LabelValues(nil, nil, mild)
}
