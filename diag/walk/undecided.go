package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Undecided are the answers that decide nothing, as they are told. After a repair a
// check reading that is called proves it, or doesn't, whatever it leaves open of the
// first question; and what is worked out from such readings explains what was, not what
// is.
func Undecided(lib *tree.Library, p Position, facts job.Facts) []Unclear {
	if len(facts.Repaired) == 0 {
		return p.Verdict.Unclear
	}
	return slices.DeleteFunc(slices.Clone(p.Verdict.Unclear), func(u Unclear) bool {
		r := p.Results[u.Test.ID]
		called := r.Mark == Seen || r.Mark == Read && !r.Astray && !r.Backward && r.Clash == nil && r.Call().Answer == measure.Called
		return called && (Checks(lib, facts, u.Test.ID) || u.Test.Kind == tree.Worked)
	})
}

// Checks says whether a repair that was done is checked by a test.
func Checks(lib *tree.Library, facts job.Facts, test string) bool {
	return slices.ContainsFunc(facts.Repaired, func(id string) bool {
		r := lib.Repairs[id]
		return r != nil && slices.Contains(r.Checks, test)
	})
}
