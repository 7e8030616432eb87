package walk

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Deciding is the test to take next for a fault that is neither found nor
// cleared: of all that could find or clear it, what lacks the fewest answers and
// has none against it; of those, one without power goes first. For a worked-out
// test it is the first of its inputs that is missing. nil when nothing that is
// left can decide. It needs the Results.
func Deciding(lib *tree.Library, p Position, fault string) *tree.Test {
	var best *tree.Test
	least := 0
	live := func(t *tree.Test) bool { return p.System.State(t.State).Live() }
	offer := func(by []tree.Evidence) {
		missing, ok := lacking(p, by)
		if !ok || len(missing) == 0 {
			return
		}
		safer := best != nil && live(best) && !live(missing[0])
		if best == nil || len(missing) < least || len(missing) == least && safer {
			best, least = missing[0], len(missing)
		}
	}
	for _, t := range lib.TreesFor(p.System.ID) {
		for _, s := range t.Steps {
			if s.Fault == fault && (s.Kind == tree.Find || s.Kind == tree.Clear) {
				offer(s.By)
			}
		}
	}
	for _, t := range p.System.Tests {
		if Clears(t, fault) {
			offer([]tree.Evidence{{Test: t.ID}})
		}
	}
	return best
}

// lacking are the tests of some evidence that have no answer; not ok when an
// answer speaks against it, or could not be had.
func lacking(p Position, by []tree.Evidence) (missing []*tree.Test, ok bool) {
	for _, e := range by {
		r, known := p.Results[e.Test]
		switch {
		case !known:
			return nil, false
		case r.Mark != Unknown:
			if chance, _, told := r.Within(e.Bands); !told || chance < measure.SureAt {
				return nil, false
			}
		case r.Test.Kind != tree.Worked:
			missing = append(missing, r.Test)
		default:
			for _, id := range r.Lacks {
				missing = append(missing, p.Results[id].Test)
			}
		}
	}
	return missing, true
}

// Clears says whether one answer of a test rules a fault out.
func Clears(t *tree.Test, fault string) bool {
	return slices.ContainsFunc(t.Bands, func(b tree.Band) bool { return slices.Contains(b.Clears, fault) }) ||
		slices.ContainsFunc(t.Choices, func(c tree.Choice) bool { return slices.Contains(c.Clears, fault) })
}
