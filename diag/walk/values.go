package walk

import (
	"maps"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// Values is what formulas may know before any reading: the label, with its
// defaults filled in, and the bench. Defaulted lists the fields that were not
// on the machine.
func Values(sys *tree.System, in job.Intake) (v formula.Values, defaulted []string) {
	v = formula.Values{Numbers: make(map[string]float64, len(sys.Label)+1), Words: map[string]string{}}
	v.Numbers["bench.celsius"] = in.Celsius
	for _, field := range sys.Label {
		if !copyLabel(v, field, in) {
			defaulted = append(defaulted, field.ID)
			defaultLabel(v, field)
		}
	}
	return v, defaulted
}

func copyLabel(v formula.Values, field tree.LabelField, in job.Intake) bool {
	name := "label." + field.ID
	if len(field.Options) > 0 {
		word, ok := in.LabelText[field.ID]
		if ok {
			v.Words[name] = word
		}
		return ok
	}
	number, ok := in.Label[field.ID]
	if ok {
		v.Numbers[name] = number
	}
	return ok
}

// defaultLabel leaves the name unknown when its formula lacks something; every
// cut that mentions it is then unknown too, never zero.
func defaultLabel(v formula.Values, field tree.LabelField) {
	name := "label." + field.ID
	if len(field.Options) > 0 {
		v.Words[name] = field.Word
		return
	}
	if number, err := field.DefaultValue(v); err == nil {
		v.Numbers[name] = number
	}
}

// withNumbers is a copy to which readings can be added.
func withNumbers(v formula.Values) formula.Values {
	return formula.Values{Numbers: maps.Clone(v.Numbers), Words: v.Words}
}
