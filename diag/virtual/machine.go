package virtual

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/formula"
)

// Machine is one simulated machine.
type Machine struct {
	maker  *Maker
	draw   Draw
	chance chance

	injected []string
	ways     map[string]string
	changes  []*change         // that faults and work make, in turn
	moves    map[string]string // positions that work has moved

	known      *formula.Known // label, bench, values; and the positions looked at last
	numbers    []float64      // by value
	words      []string       // by value
	spans      []span         // by value
	tolerance  []float64      // by slot
	row        []float64      // quantities by slot, where they depend on no position
	rows       [][]float64    // all that it has of the maker
	posedSlots []int          // the others
	posedAs    *scene         // that formulas know
	prints     []islandKey    // by part, where no quantity depends on a position

	situations []*situation // by number of the scene
	named      []*situation // by number of the standing
	islands    []*island
	answers    []answered // by number of the test
	ohmed      ohmed
}

// situation is the machine with every position set.
type situation struct {
	*scene
	row     []float64 // quantities by slot
	split   *split
	islands []*island // by number in the split
}

// Ways is in which way each injected fault came about.
func (m *Machine) Ways() map[string]string { return m.ways }

// Value is a value of this machine in base units; ok is false for a name that is
// no value of numbers.
func (m *Machine) Value(id string) (v float64, ok bool) {
	i, ok := m.maker.valueAt[id]
	if !ok || len(m.maker.values[i].Words) > 0 {
		return 0, false
	}
	return m.numbers[i], true
}

// Word is a value of this machine that is a word; empty for another name.
func (m *Machine) Word(id string) string {
	if i, ok := m.maker.valueAt[id]; ok {
		return m.words[i]
	}
	return ""
}

// Quantity is what a part has of a quantity ("ground_cable.ohms") in a state, in
// base units, 1 and 0 for yes and no. The error says that there is none.
func (m *Machine) Quantity(name, state string, with ...string) (float64, error) {
	slot := m.maker.slotOf(name)
	if slot < 0 {
		return 0, fmt.Errorf("there is no %s; name a part and one of its quantities", name)
	}
	s, err := m.in(state, with)
	if err != nil {
		return 0, err
	}
	return s.row[slot], nil
}

// Do carries out a piece of work: its changes and moves hold from then on. Work
// that the circuit doesn't mention changes nothing.
func (m *Machine) Do(work string) error {
	for _, e := range m.maker.circuit.Work {
		if e.Work != work {
			continue
		}
		for _, c := range e.Set {
			if err := m.add(&change{Change: c}); err != nil {
				return fmt.Errorf("work %s: %w", work, err)
			}
		}
		for position, setting := range e.Moves {
			m.moves[position] = setting
		}
	}
	return m.settle()
}

// Mend takes faults out again, as a repair does.
func (m *Machine) Mend(faults ...string) error {
	gone := func(c *change) bool { return c.fault != "" && slices.Contains(faults, c.fault) }
	m.changes = slices.DeleteFunc(m.changes, gone)
	m.injected = slices.DeleteFunc(m.injected, func(f string) bool { return slices.Contains(faults, f) })
	return m.settle()
}

// in is the machine in a state, with setups.
func (m *Machine) in(state string, with []string) (*situation, error) {
	standing := m.maker.standing(state, with)
	if s := of(m.named, standing.number); s != nil {
		return s, nil
	}
	scene := standing.scene
	if len(m.moves) > 0 {
		scene = m.maker.scene(m.maker.settings(standing, m.moves), standing.waves)
	}
	s := of(m.situations, scene.number)
	if s == nil {
		var err error
		if s, err = m.arrange(scene); err != nil {
			return nil, fmt.Errorf("state %s: %w", state, err)
		}
		m.situations = keep(m.situations, scene.number, s)
	}
	m.named = keep(m.named, standing.number, s)
	return s, nil
}

// of is what a list keeps at a number; nothing for one that it doesn't reach.
func of[T any](list []T, number int) T {
	if number < len(list) {
		return list[number]
	}
	var none T
	return none
}

// keep puts a thing into a list at a number, which may lie behind its end.
func keep[T any](list []T, number int, thing T) []T {
	if n := number + 1 - len(list); n > 0 {
		list = append(list, make([]T, n)...)
	}
	list[number] = thing
	return list
}

// arrange works out the quantities with the positions so, and which islands the
// parts form.
func (m *Machine) arrange(scene *scene) (*situation, error) {
	s := &situation{scene: scene, row: m.newRow()}
	copy(s.row, m.row)
	m.pose(scene)
	for _, i := range m.posedSlots {
		var err error
		if s.row[i], err = m.quantity(i, scene); err != nil {
			return nil, m.atSlot(i, err)
		}
	}
	s.split = m.maker.splitOf(s.row)
	s.islands = make([]*island, len(s.split.parts))
	for i := range s.islands {
		s.islands[i] = m.island(s, i)
	}
	return s, nil
}

// pose tells formulas how the positions stand, if they stood otherwise before.
func (m *Machine) pose(scene *scene) {
	if m.posedAs == scene {
		return
	}
	for i, setting := range scene.settings {
		if m.posedAs == nil || m.posedAs.settings[i] != setting {
			m.known.SetWordAt(m.maker.posed[i], m.maker.circuit.Positions[i].Settings[setting])
		}
	}
	m.posedAs = scene
}

// quantity is one quantity of a part with tolerance and changes.
func (m *Machine) quantity(i int, scene *scene) (float64, error) {
	s := &m.maker.slots[i]
	out, err := s.fixed, error(nil)
	switch {
	case s.drawn:
		out, err = work(s.formula, m.known)
	case len(s.posed) > 0:
		out, err = scene.quantity(i, s.formula, m.known)
	}
	if err != nil {
		return 0, err
	}
	out *= m.tolerance[i]
	for _, c := range m.changes {
		if c.slot != i {
			continue
		}
		if out, err = m.apply(c, out); err != nil {
			return 0, fmt.Errorf("changed: %w", err)
		}
	}
	return out, nil
}

// quantity is one that depends on nothing but positions, worked out once.
func (s *scene) quantity(slot int, f *formula.Formula, known *formula.Known) (float64, error) {
	if s.worked[slot] {
		return s.value[slot], nil
	}
	out, err := work(f, known)
	s.value[slot], s.worked[slot] = out, err == nil
	return out, err
}

// slotOf is the slot of "part.quantity"; -1 if there is none.
func (m *Maker) slotOf(name string) int {
	id, what, _ := strings.Cut(name, ".")
	at, ok := m.partAt[id]
	if !ok {
		return -1
	}
	p := m.parts[at]
	i := p.kind.index(what)
	if i < 0 {
		return -1
	}
	return p.at + i
}

// depends says whether a formula looks at positions.
func (m *Maker) depends(f *formula.Formula) (bool, error) {
	if f == nil {
		return false, fmt.Errorf("a quantity of a part is changed by a formula")
	}
	return slices.ContainsFunc(f.Needs(), func(name string) bool { _, ok := m.positions[name]; return ok }), nil
}

// Unanswered is the error for what the circuit doesn't show.
type Unanswered struct {
	What string // a test or a fault
	Why  string
}

// Error says why.
func (e *Unanswered) Error() string { return e.What + " is not modelled: " + e.Why }

// Untaken is a test that can't be taken on this machine, though its circuit shows it.
type Untaken struct{ Test string }

// Error says so.
func (e *Untaken) Error() string { return e.Test + " can't be taken on this machine" }

// cant is the Unanswered for a thing, with the file's own reason if it gives one.
func (m *Maker) cant(what, why string) error {
	if said, ok := m.unmodelled[what]; ok {
		why = said
	}
	return &Unanswered{What: what, Why: why}
}
