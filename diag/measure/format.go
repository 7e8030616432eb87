package measure

import (
	"math"
	"strconv"
	"strings"
)

// figures is how many digits Format gives when it isn't told a step.
const figures = 4

// Format writes a value given in base units in a unit of perUnit base units
// (0.001 for mV; 0 counts as 1), rounded to the last digit that step, in base
// units, stands for (0: four figures, trailing zeros dropped): "0.37 V",
// "42 mV". Infinity is "OL", below zero "-OL"; NaN is "unknown".
func Format(value float64, unit string, perUnit, step float64) string {
	switch {
	case math.IsNaN(value):
		return "unknown"
	case math.IsInf(value, 1):
		return "OL"
	case math.IsInf(value, -1):
		return "-OL"
	}
	return strings.TrimSpace(digits(value, perUnit, step) + " " + unit)
}

// FormatReading writes a reading as Format does its value: "12.3..12.7 V",
// "OL", "flicker".
func FormatReading(r Reading, unit string, perUnit float64) string {
	switch r.Kind {
	case OverRange:
		return "OL"
	case Flicker:
		return "flicker"
	case Wanders:
		return digits(r.Low, perUnit, r.Step) + ".." + Format(r.High, unit, perUnit, r.Step)
	}
	return Format(r.Value, unit, perUnit, r.Step)
}

func digits(value, perUnit, step float64) string {
	if !(perUnit > 0) {
		perUnit = 1
	}
	shown := value / perUnit
	if step > 0 {
		return unsigned0(strconv.FormatFloat(shown, 'f', decimals(step/perUnit), 64))
	}
	return unsigned0(trimmed(shown))
}

// decimals is how many digits after the point a step needs.
func decimals(step float64) int {
	const slack = 1e-9 // 0.001/0.001 is not quite 1
	n := math.Ceil(-math.Log10(step) - slack)
	return int(math.Max(0, math.Min(9, n)))
}

// trimmed gives a few figures and no trailing zeros.
func trimmed(v float64) string {
	if v == 0 {
		return "0"
	}
	n := figures - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	s := strconv.FormatFloat(v, 'f', max(0, min(9, n)), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// unsigned0 takes the sign off a zero.
func unsigned0(s string) string {
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}
