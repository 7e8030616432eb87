package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// Terms are what must be confirmed before a repair is begun, in order: what
// must be true, then each rule.
func Terms(r *tree.Repair) []Term {
	var out []Term
	if len(r.Before) > 0 {
		out = append(out, Term{Title: "Before it is begun", Items: r.Before})
	}
	for _, rule := range r.Law {
		out = append(out, Term{Title: rule.Cite, Says: rule.Says, Ways: rule.Ways})
	}
	return out
}

// openTerm is the first term not confirmed yet; nil when all are.
func openTerm(r *tree.Repair, agreed []job.Agreed) *Term {
	for _, term := range Terms(r) {
		done := slices.ContainsFunc(agreed, func(a job.Agreed) bool {
			return a.Repair == r.ID && a.Term == term.Title
		})
		if !done {
			return &term
		}
	}
	return nil
}
