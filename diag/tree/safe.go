package tree

import "slices"

// SafeItems are make-safe items with the settings that are asked of them, by item.
type SafeItems map[string][]string

// SafeOf are the make-safe items that a system has: those that its states, setups,
// work and repairs ask for, each with the settings asked for.
func (l *Library) SafeOf(sys *System) SafeItems {
	out := SafeItems{}
	for _, s := range sys.States {
		out.add(s.Needs)
	}
	for _, s := range sys.Setups {
		out.add(s.Needs)
	}
	for _, w := range sys.Work {
		out.add(w.Needs)
	}
	for _, r := range l.RepairsFor(sys.ID) {
		out.add(r.Needs)
	}
	return out
}

func (s SafeItems) add(needs map[string]string) {
	for item, setting := range needs {
		if !s.Has(item, setting) {
			s[item] = append(s[item], setting)
		}
	}
}

// Has says whether the item is asked for in that setting.
func (s SafeItems) Has(item, setting string) bool { return slices.Contains(s[item], setting) }

// Of are those of some needs that are asked for here: a diesel has no spark lead to
// be pulled, a machine with a pack no battery lead.
func (s SafeItems) Of(needs map[string]string) map[string]string {
	out := map[string]string{}
	for item, setting := range needs {
		if s.Has(item, setting) {
			out[item] = setting
		}
	}
	return out
}
