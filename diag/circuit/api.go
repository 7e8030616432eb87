package circuit

// This file is the contract; move each declaration to the file of its subject.

// Circuit is a set of parts, checked and numbered. It is read-only after New and
// may be solved any number of times.
type Circuit struct{ todo int }

// New numbers the nodes of the parts; volts are counted from reference. Errors
// are *BadPart (a value or name that makes no sense) or *Floating (a node with
// no way at all to the reference, open switches counted as ways).
func New(reference string, parts ...Part) (*Circuit, error) { return nil, nil }

// Solve finds the direct-current operating point. Errors are *Contradiction
// (ideal sources that fight; it names a node) or *NoAnswer (Newton's method
// found none).
func (c *Circuit) Solve() (*Solution, error) { return nil, nil }

// Solution is where the circuit comes to rest: one phase, or, when relays chatter,
// the phases they go round in.
type Solution struct {
	Phases     []*Phase
	Iterations int // of Newton's method, in all
}

// Chatters says whether relays go round for ever.
func (s *Solution) Chatters() bool { return len(s.Phases) > 1 }

// Phase is one operating point. Unknown names give NaN or false.
type Phase struct{ todo int }

func (p *Phase) Volts(node string) float64       { return 0 } // against the reference
func (p *Phase) Across(from, to string) float64  { return 0 } // without a meter
func (p *Phase) Amps(part string) float64        { return 0 } // From to To, Plus to Minus through the part, coil current for a relay's coil: see CoilAmps
func (p *Phase) CoilAmps(relay string) float64   { return 0 }
func (p *Phase) Speed(motor string) float64      { return 0 } // rad/s at the armature
func (p *Phase) Closed(relay string) bool        { return false }
func (p *Phase) Blown(fuse string) bool          { return false }
func (p *Phase) Tripped(electronics string) bool { return false }

// Thevenin is what the two nodes look like from outside, linearised.
func (p *Phase) Thevenin(from, to string) (volts, ohms float64) { return 0, 0 }

// Metered is what a voltmeter of that input resistance shows, as part of the circuit.
func (p *Phase) Metered(red, black string, input float64) float64 { return 0 }

// OhmMeter is a meter's own source for ohms, continuity and diodes.
type OhmMeter struct {
	Volts, Ohms float64 // 2.8 V behind 2.2 kohm for ohms, 2.8 kohm for diodes
	Leads       float64 // ohm of both leads, 0.2
	Full        float64 // full scale in ohm (or V for a diode test); above it: over range
}

// OhmsShown is what an ohmmeter displays.
type OhmsShown struct {
	Value float64 // ohm; V for a diode test
	Over  bool
	Live  bool // more than 50 mV stood there before the meter's source was on
}

// Ohms is what the meter shows between two nodes of the circuit as it stands.
func (c *Circuit) Ohms(red, black string, m OhmMeter) (OhmsShown, error) { return OhmsShown{}, nil }

// DiodeTest is the forward volts the meter shows from red to black.
func (c *Circuit) DiodeTest(red, black string, m OhmMeter) (OhmsShown, error) {
	return OhmsShown{}, nil
}

// Run is how a circuit with windings or capacitors is followed in time: zero
// start, fixed step, first step backward Euler and then trapezoidal.
type Run struct {
	Hertz  float64 // of the windings; sets the step
	Settle int     // cycles before anything is kept
	Keep   int     // cycles kept
	Steps  int     // a cycle
}

// Follow runs the circuit in time.
func (c *Circuit) Follow(r Run) (*Waves, error) { return nil, nil }

// Waves are the kept cycles of every node and current.
type Waves struct{ todo int }

// Between is the wave from one node to another, Through the current of a part.
func (w *Waves) Between(from, to string) Wave { return Wave{} }
func (w *Waves) Through(part string) Wave     { return Wave{} }

// Wave is what kinds of meter show of a wave.
type Wave struct {
	Mean    float64 // dc mode
	Average float64 // ac, average-responding, behind a capacitor: 1.1107 x mean absolute deviation
	True    float64 // ac, true RMS, behind a capacitor
	RMS     float64 // ac + dc
	Cheap   float64 // ac range without capacitor: 2.2214 x mean of the positive half
	Least   float64
	Most    float64
}

// Floating is a node with no way to the reference.
type Floating struct{ Node string }

func (e *Floating) Error() string { return e.Node }

// Contradiction is a node that ideal sources pull to different volts.
type Contradiction struct{ Node string }

func (e *Contradiction) Error() string { return e.Node }

// NoAnswer is a circuit for which Newton's method found no solution.
type NoAnswer struct {
	Node string // that moved most
	Off  float64
}

func (e *NoAnswer) Error() string { return e.Node }

// BadPart is a part with a value or name that makes no sense.
type BadPart struct{ Part, Why string }

func (e *BadPart) Error() string { return e.Part + ": " + e.Why }
