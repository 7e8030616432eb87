package virtual

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// The slips of a hand that measures.
const (
	swapped   = iota // the leads the wrong way round
	noContact        // a probe on paint or rust
	misplaced        // a probe on another point
	decimal          // the decimal point misread
	slipCount
)

// misread is a reading gone wrong in one of the usual ways. Which slips happen,
// and how often, is common practice, no source.
func (m *Machine) misread(test *tree.Test, b Bench) (Shown, error) {
	slip := int(m.chance.uniform("which slip", reading(test, b)) * slipCount)
	wrong := *test
	switch slip {
	case swapped:
		if test.Black != "" {
			wrong.Red, wrong.Black = test.Black, test.Red
			return m.askedAs(&wrong, b)
		}
	case noContact:
		return m.untouched(test, b)
	case misplaced:
		if p := m.otherPoint(test, b); p != "" {
			wrong.Red = p
			return m.askedAs(&wrong, b)
		}
	}
	r, err := m.display(test, b)
	if r.Kind == measure.Number {
		const places = 10
		r.Value, r.Step, r.Range = rounded(r.Value*places, r.Step), r.Step*places, 0
		r = told(r, test, b)
	}
	return Shown{Reading: r, Slipped: true}, err
}

// askedAs is a display for leads that are placed otherwise.
func (m *Machine) askedAs(wrong *tree.Test, b Bench) (Shown, error) {
	id := wrong.ID
	if m.maker.reads[id] == nil {
		wrong.ID = id + " at " + wrong.Red + " and " + wrong.Black // answers are kept by id
	}
	r, err := m.display(wrong, b)
	return Shown{Reading: r, Slipped: true}, err
}

// untouched is what the meter shows with a probe on nothing.
func (m *Machine) untouched(test *tree.Test, b Bench) (Shown, error) {
	switch test.Function {
	case measure.Ohms, measure.Continuity, measure.DiodeTest:
		r, err := m.over(test, b)
		return Shown{Reading: r, Slipped: true}, err
	}
	s, err := m.maker.scale(b.Meter, test.Function, 0)
	return Shown{Reading: told(m.onScale(test, b, s, steady(0)), test, b), Slipped: true}, err
}

// otherPoint is a point of the system that is not the test's own.
func (m *Machine) otherPoint(test *tree.Test, b Bench) string {
	var points []string
	for _, p := range m.maker.sys.Points {
		_, there := m.maker.nodes[p.ID]
		if there && p.ID != test.Red && p.ID != test.Black {
			points = append(points, p.ID)
		}
	}
	if len(points) == 0 || test.Red == "" {
		return ""
	}
	slices.Sort(points)
	return points[int(m.chance.uniform("misplaced", reading(test, b))*float64(len(points)))]
}

// misseen is the neighbour of the choice that is right.
func (m *Machine) misseen(test *tree.Test, b Bench, right Shown) Shown {
	at := slices.IndexFunc(test.Choices, func(c tree.Choice) bool { return c.Name == right.Choice })
	if at < 0 || len(test.Choices) < 2 {
		return right
	}
	next := at + 1
	if next == len(test.Choices) || at > 0 && m.chance.uniform("which slip", reading(test, b)) < 0.5 {
		next = at - 1
	}
	return Shown{Choice: test.Choices[next].Name, Slipped: true}
}
