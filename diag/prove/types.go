package prove

import (
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Options say what is proved, and how hard.
type Options struct {
	Trees []string // ids; none: all
	Draws int      // machines for each fault that a tree judges
	Seed  uint64
	// Pairs takes two faults at a time instead of one, and each fault beside
	// every interlock that is bypassed or stuck without anybody knowing.
	Pairs bool
	Slip  float64 // share of answers that are chance: a probe on the wrong place
	// Untaken is the share of tests that can't be taken on a machine, whoever asks:
	// nobody to hold the key, a cover that won't come off.
	Untaken float64
	Shift   float64 // share by which each usual value is moved, some up and some down
}

// Kind says what is expected of a tree in a unit.
type Kind string

// The kinds of unit.
const (
	Judged Kind = "judged" // the tree judges the fault, or one that it walks does
	Other  Kind = "other"  // it doesn't: it has only to say nothing wrong
	Pair   Kind = "pair"   // two faults that it judges
	Bypass Kind = "bypass" // a fault that it judges and an interlock bypassed in silence
)

// Unit is one tree with one set of faults.
type Unit struct {
	Tree   string
	System string
	Kind   Kind
	Faults []string // none: a healthy machine
	Draws  int
}

// double says whether two things are wrong, so that the second may show only when
// the first is repaired.
func (u Unit) double() bool { return u.Kind == Pair || u.Kind == Bypass }

// Draw is one machine: its number and what is wrong with it.
type Draw struct {
	Seed   uint64
	Number int
	Faults []string
	Shift  float64
	Wide   float64 // how many times as much machines differ as the circuit says; 0: as much
}

// Maker makes the machines of one system. The same draw makes the same machine.
type Maker interface {
	Build(d Draw) (Machine, error)
}

// Machine is one simulated machine on the bench.
type Machine interface {
	// Complaint is what it comes in with: the id of a complaint of its system;
	// "" when it would not be brought.
	Complaint() (string, error)
	// Take answers a test. An error is a machine that can't be worked out, not a
	// test without an answer.
	Take(test *tree.Test, with Hand) (Answer, error)
	// Do does a piece of work to it.
	Do(work string) error
	// Mend puts faults right, as a repair does; those that it hasn't are left.
	Mend(faults ...string) error
	// Present are the faults that are there now, by id, whoever caused them.
	Present() ([]string, error)
	// Ways says how each fault that was put in came about, in words.
	Ways() []string
	// Drawn are the values that differ from machine to machine.
	Drawn() []Drawn
}

// Hand is what a test is taken with.
type Hand struct {
	Meter   measure.Meter
	Slip    float64 // share of answers that slip
	Untaken float64 // share of tests that can't be taken
	Again   int     // how often the test was taken before
}

// Answer is what comes of a test; exactly one of Reading, Choice and Cant is
// set.
type Answer struct {
	Reading *measure.Reading
	Choice  string
	Cant    string // why there is no answer
	Slipped bool   // it is wrong because of the hand or the eye
}

// Drawn is one value of a machine beside what is usual, in words with units.
type Drawn struct {
	Says        string
	Text, Usual string
	Off         float64 // how far from usual, as a share of the whole width; negative: below
}

// Class is what came of one machine.
type Class string

// The classes, as the package comment says.
const (
	Found  Class = "found"
	Group  Class = "group"
	Close  Class = "close"
	Masked Class = "masked"
	Missed Class = "missed"
	Wrong  Class = "wrong"
	Quiet  Class = "nothing wrong" // of a fault that the tree doesn't judge
)

// Counts are the machines of a unit by class.
type Counts struct {
	Draws  int `json:"draws"`
	Found  int `json:"found"`
	Group  int `json:"group"`
	Close  int `json:"close"`
	Masked int `json:"masked"`
	Missed int `json:"missed"`
	Wrong  int `json:"wrong"`
}

// add counts one machine.
func (c *Counts) add(class Class) {
	c.Draws++
	switch class {
	case Found:
		c.Found++
	case Group:
		c.Group++
	case Close:
		c.Close++
	case Masked:
		c.Masked++
	case Missed:
		c.Missed++
	case Wrong:
		c.Wrong++
	}
}

// plus adds other counts up.
func (c *Counts) plus(o Counts) {
	c.Draws += o.Draws
	c.Found += o.Found
	c.Group += o.Group
	c.Close += o.Close
	c.Masked += o.Masked
	c.Missed += o.Missed
	c.Wrong += o.Wrong
}

// Result is what came of a unit.
type Result struct {
	Unit   Unit
	Counts Counts
	Tried  int // machines built; those with another complaint were put aside
	// Mended is how many of the found were not named: work that the tree asked
	// for put them right.
	Mended  int
	AtOnce  int             // of the found pairs, those found before anything was repaired
	Minutes []float64       // on the bench, for each machine in order
	Left    []float64       // faults neither found nor cleared, for each machine in order
	Reached map[string]bool // "TREE/STEP" of every step gone through
	Alike   []string        // faults that no test of the tree tells from this one
	Misses  []Miss          // the commonest first
	Failed  string          // why the unit could not be run; else ""
}

// Miss is a way in which a tree goes wrong or misses, with the shortest walk
// that shows it.
type Miss struct {
	Class Class
	Count int // machines of the unit that went this way
	Trace Trace
}
