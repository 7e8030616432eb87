package casefile

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// entry is one reading as the file gives it; empty fields were not said.
type entry struct {
	function measure.Function
	red      string
	black    string
	state    string
	with     []string
	value    string

	asked source.Place // of the reading
	read  source.Place // of its value
}

// said is the entry in words, for messages.
func (e entry) said() string {
	out := e.value + " on " + orAsk(string(e.function), "a function not said")
	if e.red != "" || e.black != "" {
		out += ", " + orAsk(e.red, "?") + " to " + orAsk(e.black, "?")
	}
	return out + ", " + orAsk(e.state, "state not said")
}

func orAsk(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// match finds the one test that the entry is a reading of. flip is set when the
// leads were the other way round.
func match(sys *tree.System, e entry) (test *tree.Test, flip bool, question string) {
	var fits []*tree.Test
	var flips []bool
	for _, t := range sys.Tests {
		if ok, turned := fit(t, e); ok {
			fits, flips = append(fits, t), append(flips, turned)
		}
	}
	if len(fits) == 1 {
		if ask := e.lacks(fits[0]); ask != "" {
			return fits[0], false, ask
		}
		return fits[0], flips[0], ""
	}
	if len(fits) == 0 {
		return nil, false, unfit(sys, e)
	}
	return nil, false, tell(fits)
}

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
	return "no test of this system reads that; give the two points, the state and the meter's function"
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

// fit says whether what the entry gives agrees with the test.
func fit(t *tree.Test, e entry) (ok, turned bool) {
	if t.Kind != tree.Metered || e.function != "" && e.function != t.Function {
		return false, false
	}
	if e.state != "" && e.state != t.State {
		return false, false
	}
	if !slices.Equal(sorted(e.with), sorted(t.With)) {
		return false, false
	}
	switch {
	case agrees(e.red, t.Red) && agrees(e.black, t.Black):
		return true, false
	case e.red != "" && e.black != "" && e.red == t.Black && e.black == t.Red:
		return true, true
	}
	return false, false
}

func agrees(given, want string) bool { return given == "" || given == want }

func sorted(list []string) []string { return slices.Sorted(slices.Values(list)) }

// lacks asks for what an otherwise fitting entry leaves open. A value without
// its point or state is never taken for a reading: where both leads went and
// whether anything was drawing decide what it means.
func (e entry) lacks(t *tree.Test) string {
	var open []string
	if e.function == "" {
		open = append(open, "the meter's function (AC or DC)")
	}
	if e.red == "" && t.Red != "" {
		open = append(open, "where the red lead was")
	}
	if e.black == "" && t.Black != "" {
		open = append(open, "where the black lead was")
	}
	if e.state == "" && t.State != "" {
		open = append(open, "the state of the machine")
	}
	if len(open) == 0 {
		return ""
	}
	return fmt.Sprintf("it may be %s, but the case does not say %s", t.ID, strings.Join(open, " and "))
}

// tell names the tests that an entry could be, and what tells them apart.
func tell(fits []*tree.Test) string {
	var ids []string
	for _, t := range fits {
		ids = append(ids, t.ID)
	}
	return "it could be " + strings.Join(ids, " or ") + "; say the state, both points and any setup"
}
