package walk

import (
	"maps"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// Values is what formulas may know before any reading, see System.LabelValues.
// Defaulted lists the fields that were not on the machine.
func Values(sys *tree.System, in job.Intake) (v formula.Values, defaulted []string) {
	for _, field := range sys.Label {
		_, given := in.Label[field.ID]
		if len(field.Options) > 0 {
			_, given = in.LabelText[field.ID]
		}
		if !given {
			defaulted = append(defaulted, field.ID)
		}
	}
	return sys.LabelValues(in.Label, in.LabelText, in.Celsius), defaulted
}

// withNumbers is a copy to which readings can be added.
func withNumbers(v formula.Values) formula.Values {
	return formula.Values{Numbers: maps.Clone(v.Numbers), Words: v.Words}
}
