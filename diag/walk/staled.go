package walk

import (
	"slices"

	"benchlead/diag/tree"
)

// StaledBy lists the tests that a repair makes unknown again: what it says, its
// check readings, the safety functions, what shows that the complaint is gone,
// and the evidence of every finding that it clears, so that a
// condemned part never stays condemned on readings taken before the repair.
func StaledBy(lib *tree.Library, sys *tree.System, r *tree.Repair) []string {
	out := slices.Concat(r.Checks, r.Stales, sys.HandBack)
	for _, e := range sys.Well {
		out = append(out, e.Test)
	}
	for _, t := range lib.TreesFor(sys.ID) {
		for _, s := range t.Steps {
			// What a conversion takes off needs no second proof.
			if r.Kind == tree.Conversion {
				continue
			}
			if s.Kind == tree.Find && slices.Contains(r.Clears, s.Fault) && !spoken(s.By, out) {
				for _, by := range s.By {
					out = append(out, by.Test)
				}
			}
		}
	}
	out = withInputs(sys, out)
	slices.Sort(out)
	return slices.Compact(out)
}

// spoken says whether one piece of evidence is in the list already: then the
// finding falls with it.
func spoken(by []tree.Evidence, tests []string) bool {
	return slices.ContainsFunc(by, func(e tree.Evidence) bool { return slices.Contains(tests, e.Test) })
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
		if band.Danger != "" && i < len(r.Chance) && r.Chance[i] > dangerAt {
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
