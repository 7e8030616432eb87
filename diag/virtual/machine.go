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
	onValue  map[int][]*change // by value
	onSlot   map[int][]*change // by slot
	moves    map[string]string // positions that work has moved

	known      *formula.Known // label, bench, values; and the positions looked at last
	numbers    []float64      // by value
	words      []string       // by value
	spans      []span         // by value
	tolerance  []float64      // by slot
	row        []float64      // quantities by slot, where they depend on no position
	posedSlots []int          // the others
	posedAs    *string        // the settings that formulas know: their first

	situations map[string]*situation // by the settings of all positions
	named      map[string]*situation // by state and setups
	islands    map[islandKey]*island
	answers    map[string]answered // by test
}

// situation is the machine with every position set.
type situation struct {
	settings []string  // by position
	row      []float64 // quantities by slot
	waves    bool      // what alternates is followed in time
	split    *split
	islands  []*island // by number in the split
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
	for k, list := range m.onValue {
		m.onValue[k] = slices.DeleteFunc(list, gone)
	}
	for k, list := range m.onSlot {
		m.onSlot[k] = slices.DeleteFunc(list, gone)
	}
	m.injected = slices.DeleteFunc(m.injected, func(f string) bool { return slices.Contains(faults, f) })
	return m.settle()
}

// in is the machine in a state, with setups.
func (m *Machine) in(state string, with []string) (*situation, error) {
	name := state
	for _, setup := range with {
		name += "\x00" + setup
	}
	if s, ok := m.named[name]; ok {
		return s, nil
	}
	settings := m.settings(state, with)
	waves := slices.Contains(m.maker.circuit.Waves, state)
	key := strings.Join(settings, "\x00")
	if waves {
		key += "\x00~"
	}
	s, ok := m.situations[key]
	if !ok {
		var err error
		if s, err = m.arrange(settings, waves); err != nil {
			return nil, fmt.Errorf("state %s: %w", state, err)
		}
		m.situations[key] = s
	}
	m.named[name] = s
	return s, nil
}

// settings is how every position stands: at its first setting, unless work,
// then the state, then the setups have moved it.
func (m *Machine) settings(state string, with []string) []string {
	c := m.maker.circuit
	out := make([]string, len(c.Positions))
	for i, p := range c.Positions {
		if len(p.Settings) > 0 {
			out[i] = p.Settings[0]
		}
	}
	m.maker.move(out, m.moves)
	m.maker.move(out, c.States[state])
	for _, setup := range with {
		m.maker.move(out, c.Setups[setup])
	}
	return out
}

func (m *Maker) move(settings []string, to map[string]string) {
	for position, setting := range to {
		if i, ok := m.positions[position]; ok {
			settings[i] = setting
		}
	}
}

// arrange works out the quantities with the positions so, and which islands the
// parts form.
func (m *Machine) arrange(settings []string, waves bool) (*situation, error) {
	s := &situation{settings: settings, row: slices.Clone(m.row), waves: waves}
	m.pose(settings)
	for _, i := range m.posedSlots {
		var err error
		if s.row[i], err = m.quantity(i, settings); err != nil {
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
func (m *Machine) pose(settings []string) {
	if len(settings) == 0 || m.posedAs == &settings[0] {
		return
	}
	m.posedAs = &settings[0]
	for i, p := range m.maker.circuit.Positions {
		m.known.SetWord(p.ID, settings[i])
	}
}

// quantity is one quantity of a part with tolerance and changes.
func (m *Machine) quantity(i int, settings []string) (float64, error) {
	s := &m.maker.slots[i]
	out, err := s.fixed, error(nil)
	switch {
	case s.drawn:
		out, err = work(s.formula, m.known)
	case len(s.posed) > 0:
		out, err = m.maker.posedValue(i, settings, m.known)
	}
	if err != nil {
		return 0, err
	}
	out *= m.tolerance[i]
	for _, c := range m.onSlot[i] {
		if out, err = m.apply(c, out); err != nil {
			return 0, fmt.Errorf("changed: %w", err)
		}
	}
	return out, nil
}

// posedValue is a quantity that depends on nothing but positions, worked out
// once for each of their settings.
func (m *Maker) posedValue(i int, settings []string, known *formula.Known) (float64, error) {
	s := &m.slots[i]
	key := posedKey{slot: i}
	for _, p := range s.posed {
		list := m.circuit.Positions[p].Settings
		key.settings = key.settings*uint64(len(list)+1) + uint64(slices.Index(list, settings[p])+1)
	}
	if out, ok := m.posed[key]; ok {
		return out, nil
	}
	out, err := work(s.formula, known)
	if err == nil {
		m.posed[key] = out
	}
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
