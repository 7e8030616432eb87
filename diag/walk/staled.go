package walk

import (
	"slices"

	"benchlead/diag/tree"
)

// StaledBy lists the tests that a repair makes unknown again: what it says, its
// check readings, the safety functions, what shows that the complaint is gone, all
// that speaks for or against a fault that it clears, so that a new part is never
// judged by readings of the old one, and all that is taken with power on: behind
// an open fuse every wire is dead, and beside a bad cable every other loses little.
// Should the complaint stay, those readings say nothing of the machine as it is
// now. A conversion takes off what they were taken on.
func StaledBy(lib *tree.Library, sys *tree.System, r *tree.Repair) []string {
	out := slices.Concat(r.Checks, r.Stales, sys.HandBack)
	for _, e := range sys.Well {
		out = append(out, e.Test)
	}
	if r.Kind != tree.Conversion {
		out = slices.Concat(out, underPower(sys), speaksOf(lib, sys, r.Clears))
	}
	out = withInputs(sys, out)
	slices.Sort(out)
	return slices.Compact(out)
}

// underPower are the tests that are taken while current can flow.
func underPower(sys *tree.System) []string {
	var out []string
	for _, t := range sys.Tests {
		if sys.State(t.State).Live() {
			out = append(out, t.ID)
		}
	}
	return out
}

// speaksOf are the tests that find or clear one of these faults. What they said
// was said of the part that is gone.
func speaksOf(lib *tree.Library, sys *tree.System, faults []string) []string {
	var out []string
	for _, t := range lib.TreesFor(sys.ID) {
		for _, s := range t.Steps {
			if (s.Kind == tree.Find || s.Kind == tree.Clear) && slices.Contains(faults, s.Fault) {
				for _, by := range s.By {
					out = append(out, by.Test)
				}
			}
		}
	}
	for _, t := range sys.Tests {
		if slices.ContainsFunc(faults, func(fault string) bool { return Clears(t, fault) }) {
			out = append(out, t.ID)
		}
	}
	return out
}

// withInputs adds what worked-out tests are worked out from.
func withInputs(sys *tree.System, tests []string) []string {
	for i := 0; i < len(tests); i++ {
		t := sys.Test(tests[i])
		if t == nil || t.Kind != tree.Worked {
			continue
		}
		for _, name := range t.From.Needs() {
			if sys.Test(name) != nil && !slices.Contains(tests, name) {
				tests = append(tests, name)
			}
		}
	}
	return slices.DeleteFunc(tests, func(id string) bool {
		t := sys.Test(id)
		return t == nil || t.Kind == tree.Worked
	})
}

// Dangerous says whether a result lies in a band or choice that raises a
// danger, or may.
func Dangerous(r Result) bool {
	for i, band := range r.Test.Bands {
		if band.Danger != "" && r.Raises(i) {
			return true
		}
	}
	for _, c := range r.Test.Choices {
		if c.Danger != "" && c.Name == r.Choice {
			return true
		}
	}
	return false
}
