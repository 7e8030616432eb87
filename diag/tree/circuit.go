package tree

import (
	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// Circuit is what lies behind the tests of a system: parts between points, what
// differs from machine to machine, how each fault changes it, and what is heard
// and seen. It proves the trees and never supplies a cut.
type Circuit struct {
	System    string
	Ground    string // point from which volts are counted
	Joints    []Joint
	Values    []Value
	Positions []Movable
	States    map[string]map[string]string // state to position to setting
	Setups    map[string]map[string]string
	Waves     []string // states in which windings move: followed in time
	Parts     []CircuitPart
	Faults    []Breakage
	Together  []Together
	Told      []Told
	Shows     []Show
	Reads     []Reads
	Work      []Effect
	Stages    []Stage
	// Complaints say which complaint the machine would come in with; the first
	// that holds.
	Complaints []Complains
	Unmodelled []Unmodelled
	Place      source.Place
}

// Unasked is the complaint that a machine has when no other fits; "" if it would
// then not be brought.
func (c *Circuit) Unasked() string {
	if n := len(c.Complaints); n > 0 && len(c.Complaints[n-1].When) == 0 {
		return c.Complaints[n-1].Complaint
	}
	return ""
}

// Stage is that of an id; nil if there is none.
func (c *Circuit) Stage(id string) *Stage {
	for i := range c.Stages {
		if c.Stages[i].ID == id {
			return &c.Stages[i]
		}
	}
	return nil
}

// Joint is a place between parts that no lead reaches.
type Joint struct {
	ID    string
	Title string
	Place source.Place
}

// Value is a quantity that differs from machine to machine. Numbers are drawn
// between From and To, most often near Usual (triangular); words by weight. Span
// gives the numbers in base units.
type Value struct {
	ID   string
	Says string
	// over label, bench and earlier values; From and To are nil when it is the
	// same in every machine
	Usual, From, To *formula.Formula
	Unit            string
	PerUnit         float64 // base units in one of Unit
	Basis           string  // id of a source, "practice" or "memory"
	Firm            bool    // chemistry or a label: not moved when all nominals are
	Words           []string
	Weights         []float64
	Place           source.Place
}

// Movable is something a hand or a piece of work sets; the first setting is
// where it stands unless a state, setup or work says otherwise.
type Movable struct {
	ID       string
	Settings []string
	Place    source.Place
}

// PartKind is a kind of part, in the circuit's terms.
type PartKind string

// The kinds of part of a circuit.
const (
	IsEMF         PartKind = "emf"
	IsResistor    PartKind = "resistor"
	IsWire        PartKind = "wire"
	IsSwitch      PartKind = "switch"
	IsFuse        PartKind = "fuse"
	IsRelay       PartKind = "relay"
	IsMotor       PartKind = "motor"
	IsDiode       PartKind = "diode"
	IsLamp        PartKind = "lamp"
	IsSupply      PartKind = "supply"
	IsWinding     PartKind = "winding"
	IsCapacitor   PartKind = "capacitor"
	IsElectronics PartKind = "electronics"
)

// CircuitPart is one part between two points or joints. Numbers holds its
// quantities by name ("ohms", "coil_ohms"), in base units, Conditions its
// yes-or-no ones ("closed", "welded"), to be asked with Holds; all are formulas
// over label, bench, values and positions (words). What isn't written is absent.
type CircuitPart struct {
	ID         string
	Kind       PartKind
	From, To   string
	Coil       [2]string // relay
	Sense      string    // electronics
	Numbers    map[string]*formula.Formula
	Conditions map[string]*formula.Formula
	When       *formula.Formula // the part is there only if it holds; nil: always
	Spread     float64          // share by which its main quantity differs: 0.2 is +-20 %
	Firm       bool
	Basis      string
	Place      source.Place
}

// Breakage is a fault as changes to values and parts.
type Breakage struct {
	Fault  string
	Common float64 // how common, relative to the others of the system; judgement
	Ways   []Way
	// Holds, if set, is when the fault is there whoever caused it (a fuse blown
	// by a chafed wire), in a state.
	Holds *Condition
	Place source.Place
}

// Together is faults that are found together more often than chance has it,
// because one brings the other about or both have one cause.
type Together struct {
	Faults []string // two or more, in the order of the system
	Common float64  // how common, on the scale of Breakage.Common; judgement
	Charge bool     // the one stores the charge, and the other should bring it
	Why    string
	Place  source.Place
}

// Stage is a machine after work that is worth reading it again for: what it shows
// then tells more than what it showed as it came.
type Stage struct {
	ID    string
	Title string
	Work  []string // in order
	First []string // tests that are answered before anybody begins with it
	Why   string
	Place source.Place
}

// Told is something that the owner tells of the machine, and how many times as likely
// it makes a fault: as often as it is told where that is wrong, against where another
// fault is. Judgement.
type Told struct {
	History string // a line of the system's history
	Times   []Times
	Basis   string // id of a source, "practice" or "memory"
	Place   source.Place
}

// Times is a fault with how many times as likely it is.
type Times struct {
	Fault string
	By    float64
}

// Way is one way of a fault, with its share among the ways.
type Way struct {
	Name     string
	Share    float64 // among the ways; only the ratio to the others counts
	From, To float64 // severity; both 0 when it has none
	ByRatio  bool    // severity is drawn evenly by ratio (log), not by difference
	Set      []Change
	Place    source.Place
}

// Change sets a value, or one quantity or condition of a part
// ("ground_cable.ohms", "solenoid.welded"), and so may set what the part's own
// line leaves out: ohms of a wire that is given by its gauge. To may use
// everything a part's formula may, and `was` and `severity`; it is in base
// units, or a condition (To.Condition). Word is set instead of To for a value of
// words.
type Change struct {
	What  string
	To    *formula.Formula
	Word  string
	Place source.Place
}

// Condition is a yes-or-no formula over label, bench, values, positions and what
// the solved circuit gives (PART.volts, PART.amps, PART.rpm, PART.pulled,
// PART.chatters, PART.coil_amps, PART.blown, PART.tripped), in a state with
// setups; without a state, in the test's own with the test's setups. Of a
// complaint or a Breakage, one without a state needs nothing that depends on it.
type Condition struct {
	When  *formula.Formula
	State string
	With  []string
	Place source.Place
}

// Show is what is heard or seen for one observation: the first choice whose
// conditions all hold.
type Show struct {
	Test    string
	Choices []ShownChoice
	Place   source.Place
}

// ShownChoice is one choice and when it shows; without conditions, always.
type ShownChoice struct {
	Choice string
	When   []Condition
}

// Reads is a metered test that the circuit's points don't answer (seconds of a
// blade stop): its value as a formula, in the test's base unit.
type Reads struct {
	Test  string
	Value *formula.Formula
	State string
	With  []string
	Place source.Place
}

// Effect is what a piece of work does to the machine.
type Effect struct {
	Work  string
	Set   []Change
	Moves map[string]string // positions, from then on
	Place source.Place
}

// Complains is a complaint and when the machine would come in with it.
type Complains struct {
	Complaint string
	When      []Condition
}

// Unmodelled is a fault or an effect that the circuit can't show, and why.
type Unmodelled struct {
	What  string // a fault's id, a test's id, "TEST: CHOICE", or words
	Why   string
	Place source.Place
}
