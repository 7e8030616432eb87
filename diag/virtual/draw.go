package virtual

import (
	"fmt"
	"math"
	"slices"

	"benchlead/diag/tree"
)

// Draw says which machine to make.
type Draw struct {
	Seed   uint64
	Number int      // of the machine; it fixes every tolerance
	Faults []string // put in, by id
	// Ways and Severities fix how a fault comes about, by the fault's id; what is
	// left out is drawn.
	Ways       map[string]string
	Severities map[string]float64
	// Shift moves every nominal that is not firm up or down by that share: 0.15
	// makes machines unlike those that the trees were written for.
	Shift float64
	// Wide makes machines differ so many times as much as the circuit says: 1.8 is a
	// world wider than the one that was thought of; 0 leaves it. What is firm keeps
	// its limits.
	Wide float64
	// Usual leaves every tolerance out: values stand at their usual.
	Usual bool
}

// change is one change to a value or a quantity of a part.
type change struct {
	tree.Change
	fault    string // empty for a piece of work
	severity float64
	value    int  // that it changes; -1: none
	slot     int  // that it changes; -1: none
	posed    bool // depends on positions
}

// Build makes a machine. The error names the fault or formula that is wrong.
func (m *Maker) Build(d Draw) (*Machine, error) {
	m.counts.Built++
	machine := &Machine{
		maker: m, draw: d, chance: newChance(d.Seed, d.Number),
		moves: map[string]string{}, ways: map[string]string{},
	}
	machine.tolerance, machine.row = machine.newRow(), machine.newRow()
	for _, fault := range d.Faults {
		if err := machine.inject(fault); err != nil {
			return nil, err
		}
	}
	machine.tolerances()
	return machine, machine.settle()
}

// inject draws a fault's way and severity and notes its changes.
func (m *Machine) inject(fault string) error {
	b := m.maker.faults[fault]
	if b == nil {
		return m.maker.cant(fault, "the circuit does not say what this fault changes")
	}
	way, err := m.way(b)
	if err != nil {
		return err
	}
	severity, fixed := m.draw.Severities[fault]
	if !fixed {
		severity = between(m.chance.uniform("severity", fault+"/"+way.Name), way.From, way.To, way.ByRatio)
	}
	m.injected = append(m.injected, fault)
	m.ways[fault] = way.Name
	for _, c := range way.Set {
		if err := m.add(&change{Change: c, fault: fault, severity: severity}); err != nil {
			return fmt.Errorf("fault %s: %w", fault, err)
		}
	}
	return nil
}

func (m *Machine) way(b *tree.Breakage) (*tree.Way, error) {
	wanted, fixed := m.draw.Ways[b.Fault]
	var weights []float64
	for i := range b.Ways {
		if fixed && b.Ways[i].Name == wanted {
			return &b.Ways[i], nil
		}
		weights = append(weights, b.Ways[i].Share)
	}
	if fixed || len(weights) == 0 {
		return nil, fmt.Errorf("fault %s has no way %q; name one that the circuit lists", b.Fault, wanted)
	}
	return &b.Ways[byWeight(m.chance.uniform("way", b.Fault), weights)], nil
}

// add notes a change to what it changes.
func (m *Machine) add(c *change) error {
	m.changes = append(m.changes, c)
	if at, ok := m.maker.valueAt[c.What]; ok {
		c.value, c.slot = at, -1
		return nil
	}
	c.value, c.slot = -1, m.maker.slotOf(c.What)
	if c.slot < 0 {
		return fmt.Errorf("there is no %s to change; name a value, or a part and one of its quantities", c.What)
	}
	posed, err := m.maker.depends(c.To)
	c.posed = posed
	return err
}

// tolerances draws by what factor each quantity of each part differs.
func (m *Machine) tolerances() {
	for i := range m.maker.slots {
		m.tolerance[i] = 1
		s := &m.maker.slots[i]
		p := &m.maker.parts[s.of]
		if s.spread > 0 && !m.draw.Usual {
			spread := m.wider(s.spread)
			m.tolerance[i] = triangular(m.chance.uniform("part", p.ID), 1-spread, 1, 1+spread)
		}
		if s.shifts {
			m.tolerance[i] *= m.shift("part", p.ID)
		}
	}
}

// wider is a spread in a wider world: below the whole value.
func (m *Machine) wider(spread float64) float64 {
	const most = 0.9
	if m.draw.Wide == 0 {
		return spread
	}
	return math.Max(spread, math.Min(most, spread*m.draw.Wide))
}

// wider is the limits of a value in a wider world: by ratio, so that they keep
// their sign.
func (s span) wider(by float64) span {
	if by == 0 || !(s.from > 0 && s.usual > 0 && s.to > 0) {
		return s
	}
	return span{s.usual, s.usual * math.Pow(s.from/s.usual, by), s.usual * math.Pow(s.to/s.usual, by)}
}

// spreadOf is the spread of a quantity: that of the part for its main one. A
// wire given by its gauge differs by its length and its ends.
func (p *part) spreadOf(what string) float64 {
	if what == p.Kind.Main() || p.Kind == tree.IsWire && (what == "metres" || what == "ends") {
		return p.Spread
	}
	return 0
}

// shift is the factor by which a thing's nominals are moved.
func (m *Machine) shift(kind, name string) float64 {
	switch {
	case m.draw.Shift == 0:
		return 1
	case m.chance.uniform("shift "+kind, name) < 0.5:
		return 1 - m.draw.Shift
	}
	return 1 + m.draw.Shift
}

// settle works out everything that doesn't depend on positions: the values with
// the changes that faults and work made, and the rows of the parts.
func (m *Machine) settle() error {
	m.situations, m.named, m.answers = nil, nil, nil
	m.known, m.posedAs = m.maker.known.Copy(), nil
	m.numbers, m.words = make([]float64, len(m.maker.values)), make([]string, len(m.maker.values))
	m.spans = make([]span, len(m.maker.values))
	if err := m.drawValues(); err != nil {
		return err
	}
	m.posedSlots = m.posedSlots[:0]
	for i := range m.maker.slots {
		if m.isPosed(i) {
			m.posedSlots = append(m.posedSlots, i)
			continue
		}
		var err error
		if m.row[i], err = m.quantity(i, nil); err != nil {
			return m.atSlot(i, err)
		}
	}
	m.printParts()
	return nil
}

func (m *Machine) atSlot(i int, err error) error {
	s := &m.maker.slots[i]
	return fmt.Errorf("part %s, %s: %w", m.maker.parts[s.of].ID, s.what, err)
}

func (m *Machine) isPosed(slot int) bool {
	return len(m.maker.slots[slot].posed) > 0 ||
		slices.ContainsFunc(m.changes, func(c *change) bool { return c.slot == slot && c.posed })
}

// drawValues draws the values in the order of the file. A change to a value
// comes at once, so that later values follow it; one that mentions a later value
// waits for the end.
func (m *Machine) drawValues() error {
	var late []int
	for i := range m.maker.values {
		if err := m.drawValue(i); err != nil {
			return fmt.Errorf("value %s: %w", m.maker.values[i].ID, err)
		}
		if !m.ready(i) {
			late = append(late, i)
			continue
		}
		if err := m.changeValue(i); err != nil {
			return err
		}
	}
	for _, i := range late {
		if err := m.changeValue(i); err != nil {
			return err
		}
	}
	return nil
}

func (m *Machine) drawValue(i int) error {
	v := &m.maker.values[i]
	if len(v.Words) > 0 {
		m.setWord(i, v.Words[m.wordOf(v)])
		return nil
	}
	s := v.span
	if !v.always {
		var err error
		if s, err = v.limits(m.known); err != nil {
			return err
		}
	}
	if !v.Firm {
		s = s.wider(m.draw.Wide)
	}
	drawn := s.usual
	if !m.draw.Usual {
		drawn = triangular(m.chance.uniform("value", v.ID), s.from, s.usual, s.to)
	}
	if !v.Firm {
		drawn *= m.shift("value", v.ID)
	}
	m.spans[i] = s
	m.setNumber(i, drawn)
	return nil
}

// wordOf is the place of the word that is drawn; the usual one is the commonest.
func (m *Machine) wordOf(v *value) int {
	if m.draw.Usual {
		return slices.Index(v.Weights, slices.Max(v.Weights))
	}
	return byWeight(m.chance.uniform("value", v.ID), v.Weights)
}

func (m *Machine) setNumber(i int, v float64) {
	m.numbers[i] = v
	m.known.SetAt(m.maker.values[i].place, v)
}

func (m *Machine) setWord(i int, word string) {
	m.words[i] = word
	m.known.SetWordAt(m.maker.values[i].place, word)
}

// ready says whether a value's changes mention no later value.
func (m *Machine) ready(i int) bool {
	for _, c := range m.changes {
		if c.value == i && c.To != nil && slices.ContainsFunc(c.To.Needs(), func(name string) bool { return m.maker.valueAt[name] > i }) {
			return false
		}
	}
	return true
}

func (m *Machine) changeValue(i int) error {
	v := &m.maker.values[i]
	for _, c := range m.changes {
		if c.value != i {
			continue
		}
		if len(v.Words) > 0 {
			m.setWord(i, c.Word)
			continue
		}
		after, err := m.apply(c, m.numbers[i])
		if err != nil {
			return fmt.Errorf("change of %s: %w", v.ID, err)
		}
		m.setNumber(i, after)
	}
	return nil
}

// apply is what a change makes of a quantity.
func (m *Machine) apply(c *change, before float64) (float64, error) {
	m.known.SetAt(m.maker.was, before)
	m.known.SetAt(m.maker.severity, c.severity)
	return work(c.To, m.known)
}

// Drawn is one value of a machine beside what is usual, base units.
type Drawn struct {
	Value              *tree.Value
	Word               string // of a value of words
	Number             float64
	Usual, Least, Most float64
}

// Drawn are the values of the machine as they are now, in the order of the file.
func (m *Machine) Drawn() []Drawn {
	out := make([]Drawn, len(m.maker.values))
	for i, v := range m.maker.values {
		s := m.spans[i]
		out[i] = Drawn{v.Value, m.words[i], m.numbers[i], s.usual, s.from, s.to}
	}
	return out
}
