package tree

import (
	"maps"
	"slices"
	"strings"

	"benchlead/diag/measure"
)

// Fault is the fault of that id, or nil.
func (s *System) Fault(id string) *Fault {
	for _, f := range s.Faults {
		if f.ID == id {
			return f
		}
	}
	return nil
}

// FindWork is the piece of work of that id, or nil.
func (s *System) FindWork(id string) *Work {
	for _, w := range s.Work {
		if w.ID == id {
			return w
		}
	}
	return nil
}

// State is the state of that id, or nil.
func (s *System) State(id string) *State {
	for i := range s.States {
		if s.States[i].ID == id {
			return &s.States[i]
		}
	}
	return nil
}

// Setup is the setup of that id, or nil.
func (s *System) Setup(id string) *Setup {
	for i := range s.Setups {
		if s.Setups[i].ID == id {
			return &s.Setups[i]
		}
	}
	return nil
}

// Point is the point of that id, or nil.
func (s *System) Point(id string) *Point {
	for i := range s.Points {
		if s.Points[i].ID == id {
			return &s.Points[i]
		}
	}
	return nil
}

// Complaint is the complaint of that id, or nil.
func (s *System) Complaint(id string) *Complaint {
	for i := range s.Complaints {
		if s.Complaints[i].ID == id {
			return &s.Complaints[i]
		}
	}
	return nil
}

// Outcomes is what a test may come out as: its bands low to high, or its
// choices. Unsure is not among them.
func (t *Test) Outcomes() []string {
	var out []string
	for _, b := range t.Bands {
		out = append(out, b.Name)
	}
	for _, c := range t.Choices {
		out = append(out, c.Name)
	}
	return out
}

// Inputs is the tests that a worked-out test names.
func (t *Test) Inputs() []string {
	if t.From == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(t.From.Needs()), func(name string) bool { return strings.Contains(name, ".") })
}

// TreesFor is the trees that fit a system, by id.
func (l *Library) TreesFor(system string) []*Tree {
	var out []*Tree
	for _, t := range l.Trees {
		if slices.Contains(t.Systems, system) {
			out = append(out, t)
		}
	}
	slices.SortFunc(out, func(a, b *Tree) int { return strings.Compare(a.ID, b.ID) })
	return out
}

// RepairsFor is the repairs that fit a system, by id.
func (l *Library) RepairsFor(system string) []*Repair {
	var out []*Repair
	for _, r := range l.Repairs {
		if slices.Contains(r.Systems, system) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b *Repair) int { return strings.Compare(a.ID, b.ID) })
	return out
}

// usualMeter is the meter taken when nobody says which: the commonest on a
// bench, and the least accurate, so that nothing is called too soon.
const usualMeter = "pocket"

// MeterIDs lists the meters by id, the usual one first.
func (l *Library) MeterIDs() []string {
	ids := slices.Sorted(maps.Keys(l.Meters))
	if i := slices.Index(ids, usualMeter); i > 0 {
		ids = slices.Insert(slices.Delete(ids, i, i+1), 0, usualMeter)
	}
	return ids
}

// Instruments is a meter with what it lacks taken from the other meters, by
// id: a pocket meter has no clamp, and the clamp in the drawer is read all the
// same, with the clamp's accuracy.
func (l *Library) Instruments(id string) measure.Meter {
	var out measure.Meter
	for _, from := range append([]string{id}, l.MeterIDs()...) {
		m := l.Meters[from]
		if m == nil {
			continue
		}
		if out.ID == "" {
			out = *m
			out.Scales = slices.Clone(m.Scales)
			continue
		}
		has := functionsOf(out)
		for _, s := range m.Scales {
			if !has[s.Function] {
				out.Scales = append(out.Scales, s)
			}
		}
	}
	return out
}

func functionsOf(m measure.Meter) map[measure.Function]bool {
	has := map[measure.Function]bool{}
	for _, s := range m.Scales {
		has[s.Function] = true
	}
	return has
}

// InSentence fits a title into the middle of a sentence. Abbreviations stay as
// they are.
func InSentence(title string) string {
	small := len(title) > 1 && title[0] >= 'A' && title[0] <= 'Z' && title[1] >= 'a' && title[1] <= 'z'
	if small || strings.HasPrefix(title, "A ") {
		return strings.ToLower(title[:1]) + title[1:]
	}
	return title
}

// StaledBy lists the tests that a piece of work makes unknown in this system:
// those that its step names, and where the step says so all that are taken while
// current can flow.
func (s *System) StaledBy(step *Step) []string {
	out := slices.Clone(step.Stales)
	if !step.Powered {
		return out
	}
	for _, t := range s.Tests {
		if s.State(t.State).Live() && !slices.Contains(out, t.ID) {
			out = append(out, t.ID)
		}
	}
	return out
}
