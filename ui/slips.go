package ui

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Guess says what was probably meant by a reading that can't be right; empty without a
// guess.
func Guess(sys *tree.System, in job.Intake, test *tree.Test, r measure.Reading) string {
	if test == nil || test.Possible == nil {
		return ""
	}
	values, _ := walk.Values(sys, in)
	low, high, err := test.Possible.Limits(values)
	if err != nil {
		return ""
	}
	var d doubt
	d.guess(meanings(sys, in, test, r, low, high))
	if d.meant == nil {
		return ""
	}
	out := fmt.Sprintf("Was %s meant (%s)?", d.meant.says, d.meant.why)
	if d.other != nil {
		out += fmt.Sprintf(" Or %s (%s)?", d.other.says, d.other.why)
	}
	return out
}

// slip is one way to write a value down wrongly: by its sign, or by a power of ten.
type slip struct {
	sign  float64
	power int
}

// slips are the usual ones, the likeliest first where nothing else tells.
var slips = []slip{{-1, 0}, {1, -1}, {1, 1}, {1, -3}, {1, 3}, {1, -2}}

// meanings are the slips that lead to a value that can be, and that this meter can show:
// the nearest to what is healthy first.
func meanings(sys *tree.System, in job.Intake, test *tree.Test, r measure.Reading, low, high float64) []ranked {
	var out []ranked
	for _, by := range slips {
		m := meant(test, r, by)
		_, cant := in.Meter.Estimate(m.reading, in.Celsius)
		if v := m.reading.Value; v < low || v > high || v == 0 || cant != nil {
			continue
		}
		out = append(out, ranked{m, offHealthy(sys, in, test, m.reading.Value)})
	}
	slices.SortStableFunc(out, func(a, b ranked) int { return cmp.Compare(a.off, b.off) })
	return out
}

// offHealthy is how far a value lies from what a healthy machine reads, in powers of ten;
// 0 within it. Without such a range all are as far.
func offHealthy(sys *tree.System, in job.Intake, test *tree.Test, v float64) float64 {
	if test.Healthy == nil {
		return math.MaxFloat64
	}
	values, _ := walk.Values(sys, in)
	low, high, err := test.Healthy.Limits(values)
	near := math.Min(math.Max(v, low), high)
	switch {
	case err != nil || v != near && v*near <= 0:
		return math.MaxFloat64
	case v == near:
		return 0
	}
	return math.Abs(math.Log10(v / near))
}

// meant is a reading without one slip. What was typed stays in its text.
func meant(test *tree.Test, r measure.Reading, by slip) meaning {
	ten := math.Pow10(max(by.power, -by.power))
	turn := func(v float64) float64 {
		if by.power < 0 {
			return by.sign * v / ten
		}
		return by.sign * v * ten
	}
	m := meaning{reading: r}
	m.reading.Value, m.reading.Step, m.reading.Range = turn(r.Value), math.Abs(turn(r.Step)), 0
	m.reading.Low, m.reading.High = turn(r.Low), turn(r.High)
	if by.sign < 0 {
		m.reading.Low, m.reading.High = m.reading.High+0, m.reading.Low+0
	}
	m.says = Amount(test, m.reading.Value)
	switch {
	case by.sign < 0 && test.Function == measure.ClampAmps:
		m.why = "the clamp turned"
	case by.sign < 0:
		m.why = "leads swapped"
	case math.Abs(float64(by.power)) == 3 && prefixed(test.Unit, by.power) != "":
		m.says, m.why = strconv.FormatFloat(r.Value/perUnit(test), 'g', 6, 64)+" "+prefixed(test.Unit, by.power), "that is "+m.says
	default:
		m.why, m.digits = "the decimal point", true
	}
	m.reading.Text = fmt.Sprintf("%s, meant as %s", r.Text, Amount(test, m.reading.Value))
	return m
}

// prefixed is a unit a thousand times smaller (-3) or larger (3), as a meter's display
// names it; empty for none.
func prefixed(unit string, power int) string {
	smaller := map[string]string{"V": "mV", "A": "mA", "mA": "uA", "ohm": "mohm", "kohm": "ohm", "Mohm": "kohm"}
	larger := map[string]string{"mV": "V", "V": "kV", "uA": "mA", "mA": "A", "mohm": "ohm", "ohm": "kohm", "kohm": "Mohm"}
	if power < 0 {
		return smaller[unit]
	}
	return larger[unit]
}

func perUnit(test *tree.Test) float64 {
	if test.PerUnit == 0 {
		return 1
	}
	return test.PerUnit
}
