package casefile

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// unfit says why no test reads that. The wrong function is the commonest cause, and
// ohms on a live circuit the one that spoils a meter.
func unfit(sys *tree.System, e entry) string {
	if e.function.Passive() && sys.State(e.state).Live() {
		return fmt.Sprintf("warning: never read %s while current can flow (%s): the figure means nothing and the meter may be spoilt; take the power off, say that state, and read again", e.function, e.state)
	}
	other := e
	other.function = ""
	for _, t := range sys.Tests {
		ok, _ := fit(t, other)
		if !ok || e.function == "" || e.red == "" || e.state == "" {
			continue
		}
		return fmt.Sprintf("set the meter to %s: that is what is read there (%s), and the case says %s", meterSays(t.Function), t.ID, e.function)
	}
	if near := besideSetups(sys, e); near != "" {
		return near
	}
	if e.function == measure.ClampAmps {
		return "no test of this system reads that; give the point that the clamp is around as red, the state and any setup"
	}
	return "no test of this system reads that; give the two points, the state and the meter's function"
}

// besideSetups names the test that would be read so but for its setups, of several the
// one whose setups differ least; empty when there is none.
func besideSetups(sys *tree.System, e entry) string {
	var best *tree.Test
	var lack, more []string
	for _, t := range sys.Tests {
		as := e
		as.with = t.With
		if ok, _ := fit(t, as); !ok || e.lacks(t) != "" {
			continue
		}
		l, m := without(t.With, e.with), without(e.with, t.With)
		if best == nil || len(l)+len(m) < len(lack)+len(more) {
			best, lack, more = t, l, m
		}
	}
	if best == nil {
		return ""
	}
	out := fmt.Sprintf("no test is read there in just this way; the nearest is %s", best.ID)
	if len(lack) > 0 {
		out += fmt.Sprintf(", which is read with %s: if it was so, write with: [%s]", setupTitles(sys, lack), strings.Join(best.With, ", "))
	}
	if len(more) > 0 {
		out += fmt.Sprintf(", which is read without %s", setupTitles(sys, more))
	}
	return out
}

// without are the names that are not among the others.
func without(list, others []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return slices.Contains(others, s) })
}

func setupTitles(sys *tree.System, ids []string) string {
	var out []string
	for _, id := range ids {
		if setup := sys.Setup(id); setup != nil && setup.Title != "" {
			out = append(out, tree.InSentence(setup.Title))
			continue
		}
		out = append(out, id)
	}
	return strings.Join(out, " and ")
}

func meterSays(f measure.Function) string {
	switch f {
	case measure.DCVolts, measure.DCAmps:
		return "DC (" + string(f) + ")"
	case measure.ACVolts:
		return "AC (" + string(f) + ")"
	}
	return string(f)
}
