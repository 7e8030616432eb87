package tree

import "benchlead/diag/source"

// RepairKind sorts repairs.
type RepairKind string

// The kinds of repair.
const (
	Mend       RepairKind = "repair"
	Conversion RepairKind = "conversion" // to another way of starting
)

// Repair is work that clears faults.
type Repair struct {
	ID       string
	Title    string
	Kind     RepairKind
	Systems  []string
	Clears   []string // faults
	Parts    []PartUse
	Minutes  int
	Tools    []string
	Needs    map[string]string
	Cautions []string
	Steps    []string
	First    int      // so many of Steps come before anything is taken off
	Off      []string // what comes off, and where it goes
	Kept     []string
	Bin      []string // part ids that go to the parts bin
	Scrap    []string // what is thrown away, and where to
	// Fasteners are those used again, and those that have to be new.
	Fasteners []Fastener
	Torque    []Torque // only what a source gives
	Before    []string // what must be true before it is chosen (conversion checks)
	Law       []Rule   // rules it must meet, with the ways to meet them
	Stales    []string // tests made unknown; always includes Checks
	Checks    []string // tests taken again to prove it
	Place     source.Place
}

// Fastener is what holds a part that comes off: a nut, a pin, a gasket's bolts.
type Fastener struct {
	What string
	New  bool // it has to be new; otherwise the old one goes on again
}

// Torque is how tight something is drawn, as a published source has it. Other
// sources than that there are none: the maker's figures stand in his manual.
type Torque struct {
	What      string
	Low, High float64 // N·m
	Basis     string  // id of a source
	Source    string  // the published source, in words
}

// PartUse is a part a repair or a service needs.
type PartUse struct {
	Part string
	Qty  int
}

// Rule is a regulation with the ways of meeting it, of which one must hold.
type Rule struct {
	Cite string
	Says string
	Ways []string
}

// Part is a thing that can be bought, or taken from the parts bin.
type Part struct {
	ID     string
	Title  string
	NoBin  string // why it never goes in the parts bin; empty when it may
	Refund bool   // whether sellers usually take it back
	Life   *Life  // of a part that wears; nil for one that lasts
	// BinNeeds is what must be shown on a used piece before it may lie in the
	// parts bin.
	BinNeeds []string
	// BinFigures are the figures that some of BinNeeds ask for, by the words of the
	// need. The others are confirmed with yes.
	BinFigures map[string]NeedFigure
	With       []string // parts it has to match as a set; they name it too
}

// NeedFigure is between what a reading must lie, both ends in, for a need of the
// parts bin to be met.
type NeedFigure struct {
	Unit        string // as it is written behind the reading: "%", "h", "V"
	Least, Most float64
}

// Life is how long a part usually lasts before it is worn out again. No source
// says so: it is a judgement.
type Life struct {
	Seasons   float64 // of usual use
	Judgement string  // what it rests on, in words
}

// Service is work that is usual before a machine is handed back, whatever it came
// in for. It is offered, never needed for the repair.
type Service struct {
	ID      string
	Title   string
	Tell    string
	Minutes int
	// Needs are the make-safe items and the setting each must have before it, Leaves
	// those that it changes by itself and how. Of both, a system is asked for those
	// that it has: SafeOf.
	Needs    map[string]string
	Leaves   map[string]string
	Cautions []string
	Parts    []PartUse
	Place    source.Place
}
