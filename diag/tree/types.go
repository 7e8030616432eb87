// Package tree is the knowledge: systems, tests, fault trees, repairs and
// cautions, and the circuits behind the systems, read from YAML that a mechanic
// can edit, checked as a whole, and compiled to what package walk follows and
// package virtual simulates.
//
// The stages are separate: shape (YAML to plain structs with places), meaning
// (names resolved, formulas compiled, routes checked), and the Library that
// comes out. Every problem is reported at once as source.Issues.
package tree

import (
	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/source"
)

// Library is everything that was loaded, checked and compiled. It is never
// changed after Load.
type Library struct {
	Systems  map[string]*System
	Trees    map[string]*Tree
	Repairs  map[string]*Repair
	Cautions map[string]*Caution
	Safe     map[string]*SafeItem
	Parts    map[string]*Part
	Services map[string]*Service
	Meters   map[string]*measure.Meter
	Troubles []Trouble // what complaints are sorted by, in the order they are asked in
	Terms    []Term    // words of the trade, by the word
	Digest   string    // of all the text that was loaded

	judging map[string]steps // by system
}

// System is how a machine starts, charges and sparks electrically.
type System struct {
	ID         string
	Title      string
	About      string // one or two sentences: how to recognise it
	Machine    string // what the machine usually is, in words ("walk-behind")
	Complaints []Complaint
	History    []Choice // "what changed just before?"
	Label      []LabelField
	Points     []Point
	States     []State
	Setups     []Setup
	Tests      []*Test // in file order
	Faults     []*Fault
	Work       []*Work
	Sketch     Sketch
	HandBack   []string // tests that prove the safety functions, last and always
	Service    []string // what is usually done before hand-back, ids of Services in the order of doing
	Agree      []Agree  // readings that can't be together
	NotFor     []NotFor // safety functions and services that some kinds of machine don't have
	// Well is what shows that the complaint is gone. After a repair it is asked,
	// and while it holds the walk is not gone through again.
	Well []Evidence
	// Circuit is what lies behind the tests; nil when the system has none.
	Circuit *Circuit
	Place   source.Place

	tests map[string]*Test
	index *Index
}

// Agree is what readings can't be beside another: none of Each may be more than Most
// and Over together. Where one surely is, a reading is wrong, and nobody knows which.
// Where Most is nothing or less it says nothing: then the battery is the wrong way round.
type Agree struct {
	Each  []string // tests
	Most  string   // the test that they can't be over
	Over  float64  // by more than that, base units
	Basis string   // id of a source, "practice" or "memory"
	Says  string   // why it can't be
	Place source.Place
}

// NotFor is what a machine is neither asked nor offered when its label was said to be
// one of some words: how fast its blade stops, when it has none.
type NotFor struct {
	Field     string   // of the label, or
	Test      string   // what was seen
	Says      []string // options or choices of it
	LeavesOut []string // safety functions, by their tests, and services
}

// Trouble is what a machine does or does not do, in the plainest words: the first
// question when one comes in. Complaints of many systems belong to it.
type Trouble struct {
	ID    string
	Title string
	Also  string // other words that people use for it
}

// Complaint is what the owner says, and the trees that answer it in order.
type Complaint struct {
	ID      string
	Title   string
	Trouble string // id of a Trouble; empty when it belongs to none
	Trees   []string
	// ToTheEnd says that its trees are walked to their end after a repair too. What
	// shows that a machine cranks says nothing of one that came in for something
	// else.
	ToTheEnd bool
}

// LabelField is a rated value copied from the machine's own stickers.
type LabelField struct {
	ID      string
	Ask     string // the question at intake
	Tell    string // where it stands on the machine, or how it is told; may be empty
	Unit    string // "V", "A", "Ah", "" for a count; empty with Options for words
	Options []string
	Default *formula.Formula // over earlier label fields; nil with Options
	Word    string           // the default option, with Options
	Least   float64          // smallest value that can be right, base units
	Most    float64          // largest value that can be right, base units
	PerUnit float64          // base units in one Unit (3600 for an hour in s)
	// From and To, base units, are what labels of the type usually say; both 0 when
	// that is not known. While the label is not read, a limit that rests on it calls
	// only what is the same with either of them.
	From, To float64
	Place    source.Place
}

// Point is a place a meter lead can touch.
type Point struct {
	ID      string
	Title   string
	Minutes float64 // to reach it
	Cover   string  // what has to come off first; points behind one cover share it
	Place   source.Place
}

// State is a preset of the machine: off, key-start, removed ...
type State struct {
	ID      string
	Title   string
	Tell    string            // what to do to bring it about
	Hold    []int             // times that Tell says, as a test's
	Needs   map[string]string // make-safe items and the setting each must have
	Powered bool
	Moving  bool
	Late    bool // not while a safer test tells enough: the engine runs, or a part is off or fed directly
	Place   source.Place
}

// Live says whether current can flow to a motor or something may turn. No state
// is not live.
func (s *State) Live() bool { return s != nil && (s.Powered || s.Moving) }

// Setup is a small change for one test: unplugged, plug out, seat empty.
type Setup struct {
	ID       string
	Title    string
	Tell     string
	Hold     []int // times that Tell says, as a test's
	Needs    map[string]string
	Cautions []string
}

// TestKind says how a test is answered.
type TestKind string

// The kinds of test.
const (
	Metered  TestKind = "metered"    // a meter reading between two points
	Observed TestKind = "observed"   // a choice
	Worked   TestKind = "worked out" // from other tests
)

// Test is one question to the machine. Its ID is its identity everywhere.
type Test struct {
	ID       string
	Title    string
	Kind     TestKind
	Function measure.Function // metered
	Unit     string           // display unit: "V", "mV", "ohm", "mohm", "A" ...
	PerUnit  float64          // base units in one display unit (0.001 for mV)
	Red      string           // point, metered
	Black    string           // point, metered
	State    string
	With     []string // setups
	After    string   // the work that it is asked after; empty: at any time
	Scale    string   // range to choose on the meter, in words
	Tell     string   // what to do, imperative
	Hold     []int    // how long something is held or waited for, seconds, one after another; System.Holds
	Why      string   // why this test, what it can and can't show
	Mistake  string   // what people get wrong with it
	Alone    string   // a way for one person, when it takes two
	People   int
	Minutes  float64
	Cautions []string
	Healthy  *Span            // what a healthy machine reads; nil when nothing is
	Possible *Span            // outside it the program asks before it counts
	From     *formula.Formula // worked out
	Bands    []Band           // metered and worked out; low to high
	Choices  []Choice         // observed
	Place    source.Place

	dim   formula.Dimension // of its value
	place int               // in System.Tests
}

// Span is a pair of limits as formulas in base units.
type Span struct {
	From, To *formula.Formula
	Say      string // in words, when numbers don't say it

	fromScale, toScale float64 // base units in one unit of the formula's result; 0: 1
}

// Band is a named interval of a test's value. Bands of a test stand low to
// high; the last has no cut.
type Band struct {
	Name   string
	Below  *formula.Formula // the cut at its top, base units; nil for the last
	Basis  string           // id of a source, "practice" or "memory"
	Source string           // the published source, in words
	SuchAs []float64        // readings known to belong in it with the label left at its defaults, base units
	Clears []string         // faults
	Danger string           // caution shown before everything else
	Likely bool             // that danger is shown only where this band is the likeliest
	Stops  bool             // with that danger the work stops here
	Says   string           // what this reading means
	Take   string           // the test that would tell, when this band says nothing
	Place  source.Place

	scale float64 // base units in one unit of the formula's result; 0: 1
}

// Choice is one answer to an observation (or one line of history).
type Choice struct {
	Name   string
	Title  string
	Clears []string
	Danger string
	Stops  bool // with that danger the work stops here
	Absent bool // the machine has no such thing: nothing was proved, and nothing has to be
	Says   string
	Take   string
	Place  source.Place
}

// Fault is a way a part of the circuit can be wrong; also what a finding names.
type Fault struct {
	ID     string
	Title  string
	Part   string
	Says   string   // what it means for the machine, for the owner
	Masks  []string // faults that can't be tested until this one is repaired
	Danger string   // caution that goes with the finding
	Place  source.Place
}

// Work is something done during a walk that changes the machine: recharge,
// clean, warm up.
type Work struct {
	ID       string
	Title    string
	Tell     string
	Hold     []int // times that Tell says, as a test's
	Why      string
	Minutes  float64
	Needs    map[string]string
	Cautions []string
}

// Sketch is the system drawn in text. A mark is a letter in braces in Lines;
// Marks says which point it stands for.
type Sketch struct {
	Lines []string
	Marks map[string]string // letter to point
}

// Caution is a hazard with what to do about it.
type Caution struct {
	ID    string
	Title string
	Tell  string
	Basis string // as a band's
	// Source is the published source in words.
	Source string
	// Stops is set for hazards at which the work must not go on here.
	Stops bool
	// Likely is set for hazards of which a doubtful reading says nothing: it is shown
	// only where its band is the likeliest. All others are shown when they may be there.
	Likely bool
}

// SafeItem is one tracked make-safe condition and its settings.
type SafeItem struct {
	ID       string
	Title    string
	Order    int // place among the items as they are written: the order of doing
	Settings []Setting
}

// Setting is one setting of a make-safe item, with what to do to have it so.
type Setting struct {
	ID   string
	Tell string
	// Back is set for the setting in which the item is left when a job ends, Unfit
	// for the one in which it is left instead when the machine is not to be run.
	Back, Unfit bool
	// After is the item after which this setting is done, where that is not the item's
	// own place: a cover comes off before the plugs under it.
	After string
}

// Tree routes from one test's band to the next test.
type Tree struct {
	ID      string
	Title   string
	Systems []string
	Judges  []string // faults
	Inner   bool     // a piece of the trees that walk it: by itself it proves nothing
	Begin   string
	Steps   []*Step // in file order
	Place   source.Place

	steps map[string]*Step
}

// StepKind says what a step does.
type StepKind string

// The kinds of step.
const (
	Ask   StepKind = "test"
	Do    StepKind = "do"
	Find  StepKind = "find"
	Clear StepKind = "clear"
	Sub   StepKind = "walk"
	Stop  StepKind = "stop" // ends the whole walk, with a reason
)

// The outcomes that are not a band or a choice, and the two ends.
const (
	Unsure  = "unsure"  // skipped, can't reach, too close, flicker ...
	Shown   = "shown"   // sub-tree found a fault
	Cleared = "cleared" // sub-tree cleared all it judges
	End     = "end"     // of this tree
)

// Step is one node of a tree.
type Step struct {
	ID      string
	Kind    StepKind
	Test    string            // Ask
	Work    string            // Do
	Fault   string            // Find, Clear
	Tree    string            // Sub
	Say     string            // Stop: why, in words
	Caution string            // Stop: a hazard to show; may be empty
	Then    map[string]string // Ask, Sub: outcome to step
	Next    string            // Do, Find, Clear: step
	Else    string            // Do: declined, or done often enough
	AtMost  int               // Do
	Stales  []string          // Do: tests made unknown
	Powered bool              // Do: and all that is read with power on
	By      []Evidence        // Find, Clear
	After   []string          // Find: faults that must be judged first
	Place   source.Place
}

// Evidence is a test with the bands (or choices) that count for a finding.
type Evidence struct {
	Test  string
	Bands []string
	Place source.Place
}

// Test returns the test of that id, or nil.
func (s *System) Test(id string) *Test { return s.tests[id] }

// Step returns the step of that id, or nil.
func (t *Tree) Step(id string) *Step { return t.steps[id] }
