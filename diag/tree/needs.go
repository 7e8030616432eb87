package tree

import "maps"

// Needs are the make-safe conditions that a test's state and setups name, item to setting;
// the last setup that speaks of an item counts.
func (s *System) Needs(t *Test) map[string]string {
	out := map[string]string{}
	if state := s.State(t.State); state != nil {
		maps.Copy(out, state.Needs)
	}
	for _, id := range t.With {
		if setup := s.Setup(id); setup != nil {
			maps.Copy(out, setup.Needs)
		}
	}
	return out
}
