package tree

import "benchlead/diag/formula"

// LabelValues is what formulas may know before any reading: the label, with its
// defaults filled in where numbers and words (by field, in base units) say
// nothing, and the bench (degC). A default that can't be worked out stays
// unknown, and so does every formula that mentions it; it is never zero.
func (s *System) LabelValues(numbers map[string]float64, words map[string]string, benchCelsius float64) formula.Values {
	return labelled(s.Label, numbers, words, benchCelsius)
}

func labelled(fields []LabelField, numbers map[string]float64, words map[string]string, celsius float64) formula.Values {
	v := formula.Values{Numbers: make(map[string]float64, len(fields)+1), Words: map[string]string{}}
	v.Numbers["bench.celsius"] = celsius
	for _, field := range fields {
		name := labelDot + field.ID
		if len(field.Options) > 0 {
			v.Words[name] = field.Word
			if word, ok := words[field.ID]; ok {
				v.Words[name] = word
			}
			continue
		}
		number, ok := numbers[field.ID]
		if !ok {
			var err error
			if number, err = field.DefaultValue(v); err != nil {
				continue
			}
		}
		v.Numbers[name] = number
	}
	return v
}

// UsualLabel is a label that was read and says what is taken where nothing is
// read, in the fields that vary from machine to machine, in base units; nil
// without one.
func (s *System) UsualLabel(benchCelsius float64) map[string]float64 {
	var out map[string]float64
	usual := s.LabelValues(nil, nil, benchCelsius)
	for _, field := range s.Label {
		if v, ok := usual.Numbers[labelDot+field.ID]; ok && field.From < field.To {
			if out == nil {
				out = map[string]float64{}
			}
			out[field.ID] = v
		}
	}
	return out
}
