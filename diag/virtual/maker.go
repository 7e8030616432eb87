package virtual

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/circuit"
	"benchlead/diag/formula"
	"benchlead/diag/tree"
)

// Conditions are what all machines of a Maker have in common: what stands on the
// machine's stickers, in base units (what is left out has the system's default),
// and the temperature of the bench.
type Conditions struct {
	Label   map[string]float64
	Words   map[string]string
	Celsius float64
}

// Maker makes machines of one system.
type Maker struct {
	sys      *tree.System
	circuit  *tree.Circuit
	base     formula.Values // label and bench
	known    *formula.Known // the same, for machines to copy
	was      int            // places in it of what changes mention
	severity int

	values    []value
	valueAt   map[string]int
	parts     []part
	partAt    map[string]int
	slots     []slot // the rows of all parts, one after the other
	nodes     map[string]int
	positions map[string]int
	posed     []int // by position: its place in what formulas know

	faults     map[string]*tree.Breakage
	shows      map[string]*tree.Show
	reads      map[string]*tree.Reads
	unmodelled map[string]string

	standings map[string]*standing
	scenes    map[string]*scene
	tests     map[string]int // where answers are kept
	splits    map[string]*split
	made      []made // by part
	figures   map[*formula.Formula][]figure
	waves     map[waveKey]circuit.Wave
	followed  followed // last
	counts    Counts
	room      circuit.Room
	rows      [][]float64 // that machines which are done with have left
	ladders   []ladder
	// For use at once: a name, and the parts of a circuit.
	name []byte
	list []circuit.Part
}

// Counts is the work that a Maker's machines have caused, for tests and
// benchmarks.
type Counts struct {
	Built    int // machines
	Solved   int // circuits, at rest
	Followed int // circuits, in time; each run counts
}

// Counts is the work done so far.
func (m *Maker) Counts() Counts { return m.counts }

// System is the system whose machines are made.
func (m *Maker) System() *tree.System { return m.sys }

// part is a part of the circuit, with its place in the rows.
type part struct {
	*tree.CircuitPart
	kind  kindOf
	at    int // of its row in the slots
	nodes []int
}

// present is the slot that says whether the part is there.
func (p *part) present() int { return p.at + p.kind.size() - 1 }

// slot is one quantity of a part.
type slot struct {
	of     int // part
	what   string
	yesNo  bool
	spread float64 // by what share it differs from machine to machine
	shifts bool    // with all nominals
	rule
}

// rule is a formula with what it depends on. Without a formula it is fixed.
type rule struct {
	formula *formula.Formula
	fixed   float64
	drawn   bool  // depends on values
	posed   []int // positions it depends on
}

// value is a value of the circuit, with its limits if they are the same for every
// machine.
type value struct {
	*tree.Value
	place  int // in what formulas know
	always bool
	span
}

// span is what a value usually is and between what it is drawn, base units.
type span struct{ usual, from, to float64 }

// NewMaker makes ready what machines of the system share. The error says what
// the circuit lacks; the system must come from a library without issues.
func NewMaker(sys *tree.System, conditions Conditions) (*Maker, error) {
	if sys == nil || sys.Circuit == nil {
		return nil, fmt.Errorf("this system has no circuit; write one beside it, in systems/SYSTEM-circuit.yaml")
	}
	m := &Maker{
		sys: sys, circuit: sys.Circuit, base: sys.LabelValues(conditions.Label, conditions.Words, conditions.Celsius),
		valueAt: map[string]int{}, partAt: map[string]int{}, nodes: map[string]int{}, positions: map[string]int{},
		faults: map[string]*tree.Breakage{}, shows: map[string]*tree.Show{}, reads: map[string]*tree.Reads{}, unmodelled: map[string]string{},
		standings: map[string]*standing{}, scenes: map[string]*scene{}, tests: map[string]int{},
		splits: map[string]*split{}, figures: map[*formula.Formula][]figure{}, waves: map[waveKey]circuit.Wave{},
	}
	m.known = formula.NewKnown(m.base)
	m.was, m.severity = m.known.Place("was"), m.known.Place("severity")
	m.index()
	if err := m.addValues(); err != nil {
		return nil, err
	}
	return m, m.addParts()
}

// index finds things by name.
func (m *Maker) index() {
	c := m.circuit
	for i, p := range c.Positions {
		m.positions[p.ID] = i
		m.posed = append(m.posed, m.known.Place(p.ID))
	}
	for i, v := range c.Values {
		m.valueAt[v.ID] = i
	}
	for i := range c.Faults {
		m.faults[c.Faults[i].Fault] = &c.Faults[i]
	}
	for i := range c.Shows {
		m.shows[c.Shows[i].Test] = &c.Shows[i]
	}
	for i := range c.Reads {
		m.reads[c.Reads[i].Test] = &c.Reads[i]
	}
	for _, test := range m.sys.Tests {
		m.testNumber(test.ID)
	}
	for _, u := range c.Unmodelled {
		m.unmodelled[u.What] = u.Why
	}
}

func (m *Maker) addValues() error {
	for i := range m.circuit.Values {
		v := value{Value: &m.circuit.Values[i], always: true}
		v.place = m.known.Place(v.ID)
		for _, f := range []*formula.Formula{v.Usual, v.From, v.To} {
			r, err := m.rule(f)
			if err != nil {
				return fmt.Errorf("value %s: %w", v.ID, err)
			}
			v.always = v.always && r.always()
		}
		if v.always && len(v.Words) == 0 {
			var err error
			if v.span, err = v.limits(m.known); err != nil {
				return fmt.Errorf("value %s: %w", v.ID, err)
			}
		}
		m.values = append(m.values, v)
	}
	return nil
}

func (v *value) limits(known *formula.Known) (s span, err error) {
	s.usual, s.from, s.to, err = v.Span(known)
	return s, err
}

func (m *Maker) addParts() error {
	for i := range m.circuit.Parts {
		src := &m.circuit.Parts[i]
		kind, ok := kinds[src.Kind]
		if !ok {
			return fmt.Errorf("part %s: there is no kind of part %q", src.ID, src.Kind)
		}
		p := part{CircuitPart: src, kind: kind, at: len(m.slots)}
		for _, node := range []string{src.From, src.To, src.Coil[0], src.Coil[1], src.Sense} {
			if node != "" {
				p.nodes = append(p.nodes, m.node(node))
			}
		}
		m.partAt[src.ID] = i
		m.parts, m.made = append(m.parts, p), append(m.made, made{})
		if err := m.addRow(i, p); err != nil {
			return fmt.Errorf("part %s: %w", src.ID, err)
		}
	}
	return nil
}

// node is the number of a node, which it gets when it is first named.
func (m *Maker) node(name string) int {
	n, ok := m.nodes[name]
	if !ok {
		n = len(m.nodes)
		m.nodes[name] = n
	}
	return n
}

func (m *Maker) addRow(of int, p part) error {
	for _, what := range p.kind.numbers {
		if err := m.addSlot(slot{of: of, what: what}, p.Numbers[what]); err != nil {
			return err
		}
		if what == celsius && p.Numbers["metres"] != nil {
			m.slots[len(m.slots)-1].fixed = m.base.Numbers["bench.celsius"]
		}
	}
	for _, what := range p.kind.yesNo {
		if err := m.addSlot(slot{of: of, what: what, yesNo: true}, p.Conditions[what]); err != nil {
			return err
		}
	}
	err := m.addSlot(slot{of: of, what: "when", yesNo: true}, p.When)
	if p.When == nil {
		m.slots[len(m.slots)-1].fixed = 1
	}
	return err
}

func (m *Maker) addSlot(s slot, f *formula.Formula) error {
	var err error
	s.rule, err = m.rule(f)
	p := &m.parts[s.of]
	if !s.yesNo && s.what != celsius {
		s.spread = p.spreadOf(s.what)
		// What follows a value moves with it, and the mains and the engine keep
		// their speed.
		s.shifts = !p.Firm && !s.drawn && s.what != "hertz" && s.what != "gauge"
	}
	m.slots = append(m.slots, s)
	if err != nil {
		return fmt.Errorf("%s: %w", s.what, err)
	}
	return nil
}

// rule finds out what a formula depends on, and works it out if that is only
// the label and the bench.
func (m *Maker) rule(f *formula.Formula) (rule, error) {
	if f == nil {
		return rule{}, nil
	}
	r := rule{formula: f}
	for _, name := range f.Needs() {
		if at, ok := m.positions[name]; ok {
			r.posed = append(r.posed, at)
		} else if !strings.HasPrefix(name, "label.") && !strings.HasPrefix(name, "bench.") {
			r.drawn = true
		}
	}
	slices.Sort(r.posed)
	if !r.always() {
		return r, nil
	}
	var err error
	r.fixed, err = work(f, m.known)
	return r, err
}

// always says that the rule gives one result, whatever the machine.
func (r rule) always() bool { return !r.drawn && len(r.posed) == 0 }

// work is the result of a formula: 1 or 0 for a condition.
func work(f *formula.Formula, known *formula.Known) (float64, error) {
	if !f.Condition() {
		return f.EvalIn(known)
	}
	holds, err := f.HoldsIn(known)
	return one(holds), err
}
