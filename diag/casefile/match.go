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
	test     *tree.Test // that it is said to be of; nil when it names none
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
	if e.test != nil {
		return e.test, e.turns(), e.contradicts()
	}
	fits, flips := fitting(sys, e, func(state string) bool { return e.state == "" || state == e.state })
	// A dead machine may have been described less closely than the test does. With ohms it
	// counts whether the battery was off.
	if len(fits) == 0 && !e.function.Passive() {
		fits, flips = fitting(sys, e, func(state string) bool { return closer(sys.State(e.state), sys.State(state)) })
	}
	if len(fits) == 0 {
		return nil, false, unfit(sys, e)
	}
	at, ok := plainOf(fits)
	if !ok {
		return nil, false, tell(fits, e)
	}
	if ask := e.lacks(fits[at]); ask != "" {
		if len(fits) > 1 {
			return nil, false, tell(fits, e)
		}
		return fits[at], false, ask
	}
	return fits[at], flips[at], ""
}

// fitting are the tests in a state that will do and that the entry agrees with; turned are
// those with the leads the other way round.
func fitting(sys *tree.System, e entry, does func(state string) bool) (tests []*tree.Test, turned []bool) {
	for _, t := range sys.Tests {
		said := e
		if does(t.State) {
			said.state = t.State
		}
		if ok, flip := fit(t, said); ok && does(t.State) {
			tests, turned = append(tests, t), append(turned, flip)
		}
	}
	return tests, turned
}

// closer says whether a state is another one, only said more closely: both are without
// power, and all that the one asks for is asked for by the other too.
func closer(said, state *tree.State) bool {
	if said == nil || state == nil || said.Live() || state.Live() {
		return false
	}
	for item, setting := range said.Needs {
		if state.Needs[item] != setting {
			return false
		}
	}
	return true
}

// plainOf is the one of the tests that is asked at any time: the others come after work,
// and the machine of a case had none done to it.
func plainOf(fits []*tree.Test) (at int, ok bool) {
	if len(fits) == 1 {
		return 0, true
	}
	at = slices.IndexFunc(fits, func(t *tree.Test) bool { return t.After == "" })
	more := slices.ContainsFunc(fits[at+1:], func(t *tree.Test) bool { return t.After == "" })
	return at, at >= 0 && !more
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
func tell(fits []*tree.Test, e entry) string {
	var ids []string
	whole := true // all that is asked for is said, and does not tell them apart
	for _, t := range fits {
		ids = append(ids, t.ID)
		whole = whole && e.lacks(t) == ""
	}
	out := "it could be " + strings.Join(ids, " or ") + "; "
	if whole {
		return out + "they are read at the same points, so say which it is, as test: " + ids[0]
	}
	return out + "say the state, both points and any setup, or which it is, as test: " + ids[0]
}
