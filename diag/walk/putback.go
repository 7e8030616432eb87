package walk

import (
	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// PutBack lists what a test may have left off, strapped or clipped on, and that
// is not confirmed to be as it was: before a job ends it must be, whether the
// machine was repaired or not.
func PutBack(lib *tree.Library, sys *tree.System, facts job.Facts) []SafeAsk {
	w := &where{lib: lib, system: sys, facts: facts}
	return w.unconfirmed(putBack(lib, sys))
}

// putBack is the setting in which each item that this system's tests and
// repairs can change is left.
func putBack(lib *tree.Library, sys *tree.System) map[string]string {
	used := map[string]bool{}
	note := func(needs map[string]string) {
		for item := range needs {
			used[item] = true
		}
	}
	for _, s := range sys.States {
		note(s.Needs)
	}
	for _, s := range sys.Setups {
		note(s.Needs)
	}
	for _, work := range sys.Work {
		note(work.Needs)
	}
	for _, r := range lib.RepairsFor(sys.ID) {
		note(r.Needs)
	}
	need := map[string]string{}
	for id := range used {
		item := lib.Safe[id]
		if item == nil {
			continue
		}
		for _, s := range item.Settings {
			if s.Back {
				need[id] = s.ID
			}
		}
	}
	return need
}
