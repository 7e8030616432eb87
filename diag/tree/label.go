package tree

import (
	"benchlead/diag/formula"
)

// LabelValues is what formulas may know before any reading: the label, with its
// defaults filled in where numbers and words (by field, in base units) say
// nothing, and the bench. A default that can't be worked out stays unknown, and
// so does every formula that mentions it; it is never zero.
func (s *System) LabelValues(numbers map[string]float64, words map[string]string, benchCelsius float64) formula.Values {
	v := formula.Values{Numbers: map[string]float64{"bench.celsius": benchCelsius}, Words: map[string]string{}}
	for _, field := range s.Label {
		name := labelDot + field.ID
		if len(field.Options) > 0 {
			v.Words[name] = field.Word
			if word, ok := words[field.ID]; ok {
				v.Words[name] = word
			}
			continue
		}
		number, err := numbers[field.ID], error(nil)
		if _, ok := numbers[field.ID]; !ok {
			number, err = field.DefaultValue(v)
		}
		if err == nil {
			v.Numbers[name] = number
		}
	}
	return v
}
