package casefile

import (
	"fmt"
	"strings"

	"benchlead/diag/tree"
)

// filled is an entry that names its test: how that is read need not be said again.
func (e entry) filled(t *tree.Test) entry {
	e.test = t
	if e.function == "" {
		e.function = t.Function
	}
	if e.red == "" && e.black == "" {
		e.red, e.black = t.Red, t.Black
	}
	if e.state == "" {
		e.state = t.State
	}
	if len(e.with) == 0 {
		e.with = t.With
	}
	return e
}

// turns says whether the leads were the other way round.
func (e entry) turns() bool {
	_, turned := fit(e.test, e)
	return turned
}

// contradicts says that the test is not read as the entry says; empty when it is.
func (e entry) contradicts() string {
	if ok, _ := fit(e.test, e); ok {
		return e.lacks(e.test)
	}
	t := e.test
	how := string(t.Function) + ", " + t.Red
	if t.Black != "" {
		how += " to " + t.Black
	}
	how += ", " + t.State
	if len(t.With) > 0 {
		how += ", with " + strings.Join(t.With, " and ")
	}
	return fmt.Sprintf("%s is read otherwise (%s); name another test, or none, or say it as it was read", t.ID, how)
}
