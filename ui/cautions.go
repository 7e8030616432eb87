package ui

import (
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

func (s *Session) cautions(p walk.Position, t *tree.Test) []string {
	return s.cautionWords(testCautions(p, t))
}

// testCautions are the test's own and those of its setups.
func testCautions(p walk.Position, t *tree.Test) []string {
	ids := append([]string{}, t.Cautions...)
	for _, id := range t.With {
		if setup := p.System.Setup(id); setup != nil {
			ids = append(ids, setup.Cautions...)
		}
	}
	if p.System.State(t.State).Live() { // what was acknowledged once is still so
		for _, d := range p.Standing {
			ids = append(ids, d.Caution.ID)
		}
	}
	return ids
}

func (s *Session) cautionWords(ids []string) []string {
	var out []string
	for _, c := range s.cautionsOf(ids) {
		out = append(out, c.Title+". "+c.Tell)
	}
	return out
}

func (s *Session) cautionsOf(ids []string) []*tree.Caution {
	var out []*tree.Caution
	had := map[string]bool{}
	for _, id := range ids {
		if c := s.bench.Library.Cautions[id]; c != nil && !had[id] {
			had[id] = true
			out = append(out, c)
		}
	}
	return out
}

// shortCautions are those of the step that is made safe for: hands go to work at the
// card already. Each is its title and its first sentence; the step itself says the rest.
func (s *Session) shortCautions(p walk.Position) []string {
	var out []string
	for _, c := range s.cautionsOf(cautionIDs(p)) {
		first, _, more := strings.Cut(c.Tell, ". ")
		if more {
			first += "."
		}
		out = append(out, c.Title+". "+first)
	}
	return out
}

// cautionIDs are the cautions of what comes once the way is clear.
func cautionIDs(p walk.Position) []string {
	switch {
	case p.Test != nil:
		return testCautions(p, p.Test)
	case p.Work != nil:
		return p.Work.Cautions
	case p.Repair != nil:
		return p.Repair.Cautions
	case p.Serving != nil:
		return p.Serving.Cautions
	}
	return nil
}
