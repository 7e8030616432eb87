// Package walk is a pure function of trees and facts: where the walk stands,
// what to ask next, what has been found, cleared, masked or left untested, and
// on what evidence.
//
// Nothing here remembers a position. Where goes from the beginning of the
// complaint's trees to the first test without an answer, so readings taken
// early, tests passed over, undo, resuming, and trees edited while a job is
// open need no code of their own. It imports tree, job, measure and formula.
package walk

import (
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Stage is what the job waits for.
type Stage string

// The stages of a job, in the trade's order.
const (
	AtIntake   Stage = "intake"
	AtDanger   Stage = "danger"    // show Danger first; it must be acknowledged
	AtSafe     Stage = "make safe" // confirm Safe before what comes next
	AtTest     Stage = "test"      // answer Test
	AtWork     Stage = "work"      // do Work, or pass it over
	AtVerdict  Stage = "verdict"   // choose a repair path
	AtEstimate Stage = "estimate"  // the owner approves Estimate before Repair is begun
	AtTerms    Stage = "terms"     // confirm Term before Repair is begun
	AtRepair   Stage = "repair"    // do Repair, by its Lines
	AtCheck    Stage = "check"     // take Test again to prove a repair
	AtService  Stage = "services"  // usual work before hand-back, Services; each may be left out
	AtHandBack Stage = "hand back" // prove the safety functions
	AtClose    Stage = "close"     // nothing left but to close the job
	AtClosed   Stage = "closed"
)

// Position is where a job stands, and what it amounts to so far.
type Position struct {
	Stage  Stage
	System *tree.System
	Tree   string // where the walk is, when it is in a tree
	Step   string

	// What comes next. At AtDanger and AtSafe it is what follows once they are
	// out of the way.
	Test   *tree.Test
	Work   *tree.Work
	Repair *tree.Repair
	Term   *Term // AtTerms
	// Lines are the checklist of Repair.
	Lines    []Line
	Estimate *Estimate     // AtEstimate
	Services []ServiceLine // AtService, all of the system's
	Serving  *tree.Service // the service that Safe is asked for

	// Again is set when Test has an answer, which other answers contradict, and is
	// asked once more.
	Again *Contradiction
	// Disputed says that the readings of Test disagree, and one more is wanted.
	Disputed bool

	Danger   []Danger
	Standing []Danger // all that readings and looks raise now, acknowledged or not
	Safe     []SafeAsk
	// StillTurns says that the last test had the machine turning, and that nothing was
	// confirmed or done since: hands go to its wires next.
	StillTurns bool
	Trail      []Visit // the way here, first step first
	Stop       *tree.Step
	Loop       bool // the route came back to a step it had passed; the tree ended there

	Results map[string]Result // every test of the system, by id
	Verdict Verdict
	// TestedBefore are untested or masked faults that were cleared before a repair made
	// their tests unknown again. Only Where works it out.
	TestedBefore []*tree.Fault
	Ticked       []string // repairs of the chosen path that are done
}

// Term is what must be confirmed before a repair is begun: that some things are
// so, or the way in which a rule is met.
type Term struct {
	Title string
	Says  string
	Items []string // all of them must be so
	Ways  []string // one of them must hold; it is named
}

// Visit is one step that the walk went through.
type Visit struct {
	Tree, Step string
	Kind       tree.StepKind
	Test       string // Ask
	Outcome    string // band, choice, unsure, shown, cleared, done ...
}

// Danger is a hazard that a reading or an observation shows.
type Danger struct {
	Caution *tree.Caution
	Test    string
}

// SafeAsk is one make-safe item that must be set and confirmed.
type SafeAsk struct {
	Item    *tree.SafeItem
	Setting tree.Setting
	Was     string // the setting confirmed before, if any
}

// Mark says how far a test has got.
type Mark string

// The marks of a test.
const (
	Unknown Mark = "unknown" // no answer in this epoch
	Read    Mark = "read"
	Seen    Mark = "seen"
	Passed  Mark = "passed over" // skipped, can't reach, or can't be worked out
)

// Result is one test as the facts have it now.
type Result struct {
	Test    *tree.Test
	Mark    Mark
	Seq     int64 // of the latest answer that counts; the latest input's, when worked out
	Count   int   // readings that agree and were averaged
	Flicker bool
	Over    bool // over range where that is no answer: the range was too low, or a lead off
	// Estimate, Cuts and Chance are set when Mark is Read and it did not
	// flicker. Chance[i] is the probability that the value lies in band i.
	Estimate measure.Estimate
	Cuts     []float64 // base units
	Chance   []float64
	// Unread are the label fields, not read, of which another usual value would put
	// the reading in another band. Chance is then the mean over usual values.
	Unread []string
	// Clash is why the reading and another can't both be right; neither then proves anything.
	Clash  *tree.Agree
	Choice string
	Why    string   // Passed: the reason, in words
	Lacks  []string // Unknown, worked out: the tests it still needs
	// Astray says that the last reading disagrees with those before it, and no other
	// agrees with it. It then proves only what all of them would, and nothing is worked
	// out of it. Disputes are what the others read, the latest first, and Others their
	// chances; both are empty when the others only flickered, which contradicts nothing.
	Astray   bool
	Disputes []measure.Estimate
	Others   [][]float64
	// Backward says that the reading lies below nothing where it can't. Others then has the
	// chances of the same figure the right way round.
	Backward bool
	// Lone says that the reading lies below nothing where it can, that it is the only one,
	// and that nobody was asked whether the leads are right. It is Backward too, until
	// another agrees with it.
	Lone bool
	kept bool // it was questioned, and the tech stood by it
}

// Finding is a fault shown by evidence.
type Finding struct {
	Fault    *tree.Fault
	Tree     string
	Step     string
	Evidence []Evidence
}

// Evidence is one answer that speaks for a finding or a clearing.
type Evidence struct {
	Test   *tree.Test
	Says   string  // the band or choice
	Chance float64 // that it lies in one of the bands that count; 1 for a choice
}

// Clearing is a fault that readings rule out.
type Clearing struct {
	Fault    *tree.Fault
	Evidence []Evidence
	Removed  bool // a conversion took the part off the machine
}

// Masking is a fault that can't be tested until another is repaired.
type Masking struct {
	Fault *tree.Fault
	By    *tree.Fault
}

// Untested is a fault that nothing speaks for or against.
type Untested struct {
	Fault *tree.Fault
	// Doubt is set when some readings show the fault and others clear it.
	Doubt []Evidence
}

// Unclear is a test whose answer decides nothing, and the one that would.
type Unclear struct {
	Test *tree.Test
	Why  string
	Take *tree.Test // nil when it is the same test again, or none
}

// Verdict puts every fault of the system in exactly one of four lists.
type Verdict struct {
	Found    []Finding
	Cleared  []Clearing
	Masked   []Masking
	Untested []Untested
	Unclear  []Unclear
	Defaults []string // label fields taken by default
	Finished bool     // the walk has nothing left to ask
}
