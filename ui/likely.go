package ui

import (
	"benchlead/diag/counsel"
	"benchlead/diag/repair"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// Likely are the suspects as repair paths weigh them: all of them, also the least
// likely, because a finding that none of them has is taken as sure.
func Likely(c counsel.Counsel) []repair.Likely { return likely(c.All) }

func likely(suspects []suspect.Suspect) []repair.Likely {
	var out []repair.Likely
	for _, s := range suspects {
		out = append(out, repair.Likely{Faults: s.Faults, Gone: s.Gone, Probability: min(s.P, 1)})
	}
	return out
}

// Open are the tests that could be taken next, as repair paths weigh what they are
// worth.
func Open(c counsel.Counsel) []repair.Open {
	var out []repair.Open
	for _, f := range c.Foretold {
		o := repair.Open{Test: f.Test.ID, Title: f.Test.Title, Minutes: f.Minutes}
		if f.After != nil {
			o.Title += ", " + tree.InSentence(f.After.Title)
		}
		for _, a := range f.Answers {
			o.Outcomes = append(o.Outcomes, repair.Outcome{Answer: a.Says, Probability: min(a.P, 1), Suspects: likely(a.Suspects)})
		}
		out = append(out, o)
	}
	return out
}
