package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// coverage turns a standard uncertainty into one that holds 95 of 100 times:
// JCGM 100:2008 6.3.3.
const coverage = 2

// perUnit is how many base units make one of the test's display unit.
func perUnit(t *tree.Test) float64 {
	if t.PerUnit > 0 {
		return t.PerUnit
	}
	return 1
}

// amount is a value of a test in its display unit.
func amount(t *tree.Test, base float64) string {
	return measure.Format(base, t.Unit, perUnit(t), 0)
}

// shown is a result's value with its expanded uncertainty, in the text rounded
// to where the uncertainty begins. The bare number is not rounded; both bare
// ones are empty when there is none.
func shown(r walk.Result) (text, number, uncertainty string) {
	switch {
	case r.Mark == walk.Seen:
		return choiceTitle(r), "", ""
	case r.Mark != walk.Read:
		return "", "", ""
	case r.Over:
		return "OL", "", ""
	case r.Flicker:
		return string(measure.Flicker), "", ""
	case math.IsInf(r.Estimate.Value, 0) || math.IsNaN(r.Estimate.Value):
		return amount(r.Test, r.Estimate.Value), "", ""
	}
	per := perUnit(r.Test)
	value, u := r.Estimate.Value/per, coverage*r.Estimate.U()/per
	number = bare(value)
	if !(u > 0) || math.IsInf(u, 0) {
		return amount(r.Test, r.Estimate.Value), number, ""
	}
	places := decimals(u)
	uncertainty = strconv.FormatFloat(u, 'f', places, 64)
	text = fmt.Sprintf("%s ± %s %s", strconv.FormatFloat(value, 'f', places, 64), uncertainty, r.Test.Unit)
	return strings.TrimSpace(text), number, uncertainty
}

// bare is a number with the nine figures that no meter needs and that hide what
// binary fractions add.
func bare(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 9, 64), 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// decimals are the places that an uncertainty needs: one figure of it, two
// when it begins with a 1.
func decimals(u float64) int {
	const most = 6
	exponent := math.Floor(math.Log10(u))
	places := -exponent
	if u/math.Pow(10, exponent) < 1.95 {
		places++
	}
	return int(math.Max(0, math.Min(most, places)))
}

func choiceTitle(r walk.Result) string {
	for _, c := range r.Test.Choices {
		if c.Name == r.Choice {
			if c.Title != "" {
				return c.Title
			}
			return c.Name
		}
	}
	return r.Choice
}

// healthy says what a healthy machine reads, and its limits as bare numbers.
func healthy(t *tree.Test, v formula.Values) (says, low, high string) {
	if t.Healthy == nil {
		return "", "", ""
	}
	from, to, err := t.Healthy.Limits(v)
	if err != nil {
		return t.Healthy.Say, "", ""
	}
	per := perUnit(t)
	if !math.IsInf(from, 0) {
		low = strings.TrimSpace(measure.Format(from, "", per, 0))
	}
	if !math.IsInf(to, 0) {
		high = strings.TrimSpace(measure.Format(to, "", per, 0))
	}
	switch {
	case low == "" && high == "":
	case low == "":
		says = "up to " + high + " " + t.Unit
	case high == "":
		says = low + " " + t.Unit + " or more"
	case low == high:
		says = low + " " + t.Unit
	default:
		says = low + " to " + high + " " + t.Unit
	}
	says = strings.TrimSpace(says)
	if t.Healthy.Say != "" {
		says = strings.TrimPrefix(says+" ("+tree.InSentence(strings.TrimRight(t.Healthy.Say, "."))+")", " ")
	}
	return says, low, high
}

// band is the band that a result most likely lies in, how sure that is, and
// what the band means.
func band(r walk.Result) (name, answer, says string) {
	switch {
	case r.Mark == walk.Seen:
		for _, c := range r.Test.Choices {
			if c.Name == r.Choice {
				return c.Name, string(measure.Called), c.Says
			}
		}
		return r.Choice, string(measure.Called), ""
	case r.Mark != walk.Read:
		return "", "", ""
	case r.Over:
		return "", string(measure.CantTell), "Over range says nothing here: choose a higher range and read again."
	case r.Flicker:
		return "", string(measure.ByMachine), ""
	}
	call := r.Call()
	if r.InDispute() {
		return "", string(call.Answer), "It proves nothing until readings agree."
	}
	name = r.Best()
	for _, b := range r.Test.Bands {
		if b.Name == name && call.Answer == measure.Called {
			says = b.Says
		}
	}
	return name, string(call.Answer), says
}
