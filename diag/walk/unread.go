package walk

import (
	"maps"
	"slices"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// unread takes into account that a cut may rest on a label that nobody read: the
// chances are then the mean over what such labels usually say, where that would
// move one of them.
func (j *judge) unread(r Result) Result {
	chance := slices.Clone(r.Chance)
	cases := 1.0
	for _, field := range j.system.Label {
		if !j.guessed(field) || !j.restsOn(r.Test, field.ID) {
			continue
		}
		moves := false
		for _, v := range [...]float64{field.From, field.To} {
			other, ok := spreadWith(r, j.saying(field.ID, v))
			if !ok {
				continue
			}
			cases++
			for i, p := range other {
				chance[i] += p
				moves = moves || p-r.Chance[i] > 1-measure.SureAt
			}
		}
		if moves {
			r.Unread = append(r.Unread, field.ID)
		}
	}
	if len(r.Unread) == 0 {
		return r
	}
	for i := range chance {
		chance[i] /= cases
	}
	r.Chance = chance
	return r
}

// guessed says whether a field was not read, and is known to vary.
func (j *judge) guessed(f tree.LabelField) bool {
	if f.From >= f.To {
		return false
	}
	_, given := j.facts.Intake.Label[f.ID]
	return !given
}

// restsOn says whether a cut of the test names the label field, or one that was not read
// either and is worked out from it.
func (j *judge) restsOn(t *tree.Test, field string) bool {
	follows := map[string]bool{"label." + field: true}
	for _, f := range j.system.Label { // each stands after what its default needs
		_, given := j.facts.Intake.Label[f.ID]
		if !given && f.Default != nil && slices.ContainsFunc(f.Default.Needs(), func(name string) bool { return follows[name] }) {
			follows["label."+f.ID] = true
		}
	}
	return slices.ContainsFunc(t.Bands, func(b tree.Band) bool {
		return b.Below != nil && slices.ContainsFunc(b.Below.Needs(), func(name string) bool { return follows[name] })
	})
}

// saying is the values with the label saying something else in one field, and
// fields worked out from it following.
func (j *judge) saying(field string, v float64) formula.Values {
	in := j.facts.Intake
	numbers := maps.Clone(in.Label)
	if numbers == nil {
		numbers = map[string]float64{}
	}
	numbers[field] = v
	return j.system.LabelValues(numbers, in.LabelText, in.Celsius)
}

func spreadWith(r Result, values formula.Values) ([]float64, bool) {
	cuts := make([]float64, 0, len(r.Cuts))
	for _, band := range r.Test.Bands[:len(r.Cuts)] {
		cut, err := band.Cut(values)
		if err != nil {
			return nil, false
		}
		cuts = append(cuts, cut)
	}
	return measure.Spread(r.Estimate, cuts), true
}
