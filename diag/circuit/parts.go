package circuit

// Part is one part of a circuit, with a name of its own and the nodes that it
// joins. The kinds of part are the structs of this file.
type Part interface {
	// name is how errors and Phase.Amps call the part.
	name() string
	// ends are the nodes that the part touches.
	ends() ends
	// check says what is wrong with the values and what to do; "" is nothing.
	check() string
}

// EMF is a source behind a resistance: a battery, or a direct-current supply
// without a limit. The resistance may be zero.
type EMF struct {
	Name        string
	Plus, Minus string
	Volts, Ohms float64
}

// Resistor is anything that obeys Ohm's law: a coil at rest, a leak, a load, a
// contact that is always closed.
type Resistor struct {
	Name     string
	From, To string
	Ohms     float64
}

// Wire is a copper conductor given by its gauge. Extra is the resistance of its
// two ends. Temperature coefficient 0.00393 a kelvin at 20 C.
type Wire struct {
	Name     string
	From, To string
	AWG      float64 // American wire gauge; 0 is 1/0, -1 is 2/0
	Metres   float64
	Celsius  float64
	Extra    float64 // ohm
}

// Switch is a contact, or a plug that can be pulled. Leak is what it still
// conducts when open, in ohm; 0 is nothing at all.
type Switch struct {
	Name     string
	From, To string
	Closed   bool
	Ohms     float64 // when closed
	Leak     float64 // ohm when open; 0: none
}

// Fuse opens for good at 1.35 times its rating, and stays open until it is
// replaced. Ohms is its own resistance with its holder.
type Fuse struct {
	Name     string
	From, To string
	Rating   float64 // A
	Ohms     float64
	Blown    bool // from the beginning
}

// Relay is a contact that a coil's current closes: a starter solenoid, or
// electronics that switch when their input loop carries current. It starts
// released at every solve.
type Relay struct {
	Name             string
	From, To         string // the contact
	CoilFrom, CoilTo string
	CoilOhms         float64
	PullIn           float64 // coil amps from which it closes
	DropOut          float64 // coil amps below which it opens; under PullIn
	Ohms             float64 // of the closed contact
	Leak             float64 // ohm of the open contact; 0: none
	Welded           bool    // closed whatever the coil does
	Stuck            bool    // never closes
}

// Motor is a permanent-magnet motor against a load:
// V = Ohms*I + Brush*tanh(I/BrushAmps) + Ke*w and Ke*I = Drag + Viscous*w, with
// w = 0 while Ke*I is below Drag. It is odd: the other way round it turns the
// other way. Braking by shorted turns is part of Viscous. 5 A for the brushes is
// common practice, no source.
type Motor struct {
	Name        string
	Plus, Minus string
	Ohms        float64 // armature and brushes
	Ke          float64 // V s/rad, and N m/A
	Brush       float64 // V
	BrushAmps   float64 // A; 0 is 5
	Drag        float64 // N m at the armature
	Viscous     float64 // N m s at the armature; above 0
	Locked      bool
}

// Diode follows I = Saturation*(exp(V/(Ideality*VT)) - 1) behind Ohms.
// Zero Saturation and Ideality mean 5 nA and 1.8, a silicon rectifier of 0.56 V at
// 0.8 mA and 1 V at 3 A with 20 milliohm: common practice, no source. Thermal
// voltage at 27 C.
type Diode struct {
	Name           string
	Anode, Cathode string
	Ohms           float64
	Saturation     float64 // A
	Ideality       float64
}

// Lamp is a filament lamp: its resistance rises from a tenth (cold) to
// Volts*Volts/Watts at its rated volts.
type Lamp struct {
	Name         string
	From, To     string
	Volts, Watts float64
}

// Supply is a regulated source: Volts until Amps are drawn, then Amps whatever
// the volts. It never takes current back. Wakes is what it must see across its
// terminals before it gives anything; 0 is nothing.
type Supply struct {
	Name        string
	Plus, Minus string
	Volts, Ohms float64
	Amps        float64
	Wakes       float64
}

// Winding is an alternating EMF with resistance and inductance. In a solve of
// direct current only its resistance counts.
type Winding struct {
	Name     string
	From, To string
	RMS      float64 // V, no load
	Hertz    float64
	Ohms     float64
	Henries  float64
}

// Capacitor is open to direct current; Ohms is its series resistance.
type Capacitor struct {
	Name     string
	From, To string
	Farads   float64
	Ohms     float64
}

// Electronics is a protective switch between a source and the world, as in a
// battery pack: it opens for good when more than MostAmps flow from From to To
// or when From stands under LeastVolts against Sense. Off is open from the
// beginning. Leak is what it conducts when open, in ohm; 0 is nothing.
type Electronics struct {
	Name       string
	From, To   string
	Sense      string // node that From is measured against
	Ohms       float64
	MostAmps   float64 // 0: no limit
	LeastVolts float64 // 0: no limit
	Leak       float64
	Off        bool
}
