// Package measure turns what a meter shows into a value that can be judged.
//
// A reading is parsed from text, the meter's accuracy gives its uncertainty
// (JCGM 100:2008), and its conformance with limits is a probability (JCGM
// 106:2012): called at 95 % or more, otherwise too close, or this meter can't
// decide. The package imports nothing of ours and does no input or output.
package measure

// Function is what the meter is set to. AC or DC is part of a reading.
type Function string

// The functions of a hand-held meter and of the few other instruments on a
// bench. The text is what trees and case files write.
const (
	DCVolts    Function = "dc volts"
	ACVolts    Function = "ac volts"
	Ohms       Function = "ohms"
	Continuity Function = "continuity"
	DiodeTest  Function = "diode test"
	DCAmps     Function = "dc amps"    // in series, through the amps jack
	ClampAmps  Function = "clamp amps" // a clamp around one conductor
	Speed      Function = "rpm"
	Seconds    Function = "seconds"
	Celsius    Function = "celsius"
)

// Kind says what sort of display a reading was.
type Kind string

// The kinds of display.
const (
	Number    Kind = "number"
	Wanders   Kind = "wanders"    // between Low and High
	OverRange Kind = "over-range" // OL: above full scale, or open
	Flicker   Kind = "flicker"    // jumps without settling; never averaged
)

// Reading is one display of a meter, in base units (V, A, ohm, rpm, s, degC).
type Reading struct {
	Function Function
	Kind     Kind
	Value    float64 // the number; the middle when it wanders; 0 otherwise
	Low      float64 // only when it wanders
	High     float64 // only when it wanders
	Step     float64 // last digit that was written down, in base units; 0 if unknown
	Range    float64 // full scale chosen, in base units; 0: not said
	Text     string  // as typed or read, harmless to print
}

// Scale is one line of a meter's accuracy table: plus or minus (Percent of the
// reading + Counts of the last digit) for one function up to FullScale.
type Scale struct {
	Function   Function
	FullScale  float64 // base units
	Resolution float64 // one count, base units
	Percent    float64 // percent of the reading
	Counts     float64
	InputOhms  float64 // input resistance on volts; burden on amps; 0 if unknown
}

// Meter is an instrument as its accuracy table describes it.
type Meter struct {
	ID      string
	Title   string
	TrueRMS bool
	Scales  []Scale
}

// Estimate is a value with its standard uncertainty, split so that errors
// shared by readings on one scale of one meter cancel where they should.
type Estimate struct {
	Value float64 // base units; +Inf for over-range
	// Gain is the signed standard uncertainty that comes from each scale's
	// gain error (the percent part), by a name for the scale.
	Gain map[string]float64
	// Counts is the standard uncertainty from the counts of a scale of which
	// one reading alone is behind this estimate. A maker's limit is percent
	// plus counts, so it adds to that scale's Gain on a straight line.
	Counts map[string]float64
	// Own is the standard uncertainty that is this estimate's alone (rounding,
	// wandering, leads, counts of several readings on one scale).
	Own float64
}

// Answer is how sure a judgement is.
type Answer string

// The answers to "is it on this side of the limit?".
const (
	Called    Answer = "called"
	TooClose  Answer = "too close"
	CantTell  Answer = "this meter can't decide"
	ByMachine Answer = "flickers" // the display never settled
	ByLabel   Answer = "the label decides it, and it was not read"
	ByRepeat  Answer = "readings taken one after another disagree"
	ByClash   Answer = "it can't be beside another reading"
	ByLeads   Answer = "the wrong way round: leads or clamp turned"
	ByOne     Answer = "below nothing, and read once: the leads may be swapped"
)

// SureAt is the probability from which a reading is called (ILAC-G8 practice
// of 95 % confidence).
const SureAt = 0.95
