package ui

import (
	"regexp"
	"strconv"
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// healthy is what a healthy machine reads, in numbers and words.
func (s *Session) healthy(t *tree.Test) string {
	if t.Healthy == nil {
		return ""
	}
	values, _ := walk.Values(s.pos.System, *s.facts.Intake)
	low, high, err := t.Healthy.Limits(values)
	if err != nil {
		return t.Healthy.Say
	}
	out := Amount(t, low) + " to " + Amount(t, high)
	if rest, same := sayingRange(t, low, high); same {
		return out + rest
	}
	if t.Healthy.Say != "" {
		out += ": " + t.Healthy.Say
	}
	return out
}

// aRange is how a healthy range begins that is told in numbers.
var aRange = regexp.MustCompile(`^([0-9.]+) to ([0-9.]+) `)

// sayingRange says whether what is told of a healthy range begins with its own limits,
// and what stands behind them: they need not be said twice.
func sayingRange(t *tree.Test, low, high float64) (rest string, same bool) {
	said := aRange.FindStringSubmatch(t.Healthy.Say)
	if said == nil {
		return "", false
	}
	per := t.PerUnit
	if per == 0 {
		per = 1
	}
	for i, limit := range []float64{low, high} {
		v, err := strconv.ParseFloat(said[i+1], 64)
		if err != nil || Amount(t, v*per) != Amount(t, limit) {
			return "", false
		}
	}
	rest, same = strings.CutPrefix(strings.TrimPrefix(t.Healthy.Say, said[0]), t.Unit)
	if rest != "" && !strings.ContainsAny(rest[:1], " ,;.") {
		return "", false // the letters of another unit
	}
	return rest, same
}
