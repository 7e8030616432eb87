package circuit

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
