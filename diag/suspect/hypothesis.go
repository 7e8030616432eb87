package suspect

import (
	"slices"
	"strings"

	"benchlead/diag/tree"
)

// Hypothesis is what may be wrong: one fault, several that come together, nothing,
// or something that is gone while one looks for it.
type Hypothesis struct {
	Faults []string // ids, in the order of the system
	Common float64  // how common, on the scale of the system's circuit
	// Charge: one of them stores the charge, and another should bring it. The one is
	// not replaced before the other is judged.
	Charge bool
	Gone   bool // no fault shows now, though one did
}

// Has says whether a fault is one of them.
func (h Hypothesis) Has(fault string) bool { return slices.Contains(h.Faults, fault) }

// Name is the faults in one word.
func (h Hypothesis) Name() string {
	switch {
	case h.Gone:
		return "gone while testing"
	case len(h.Faults) == 0:
		return "no fault"
	}
	return strings.Join(h.Faults, " + ")
}

// Title is what may be wrong, with the titles of the system.
func (h Hypothesis) Title(sys *tree.System) string {
	switch {
	case h.Gone:
		return "Nothing is wrong now, and it may come and go"
	case len(h.Faults) == 0:
		return "Nothing wrong"
	}
	var out []string
	for _, id := range h.Faults {
		out = append(out, sys.Fault(id).Title)
	}
	return strings.Join(out, " + ")
}

// sound is how common it is that nothing is wrong with what is brought in, on the
// scale of the faults: judgement. A complaint that no sound machine has rules it
// out by itself.
const sound = 1

// gone is the share of machines whose fault comes and goes, and is gone on the bench;
// goneIfSaid is that among those of which the owner says so. Common practice, no source.
const (
	gone       = 0.05
	goneIfSaid = 0.3
)

// Hypotheses are that nothing is wrong, every fault alone, and those that come
// together, in the order of the circuit. A system without a circuit has none.
func Hypotheses(sys *tree.System) []Hypothesis {
	if sys == nil || sys.Circuit == nil {
		return nil
	}
	out := []Hypothesis{{Common: sound}}
	for _, b := range sys.Circuit.Faults {
		if len(b.Ways) > 0 {
			out = append(out, Hypothesis{Faults: []string{b.Fault}, Common: b.Common})
		}
	}
	for _, t := range sys.Circuit.Together {
		out = append(out, Hypothesis{Faults: t.Faults, Common: t.Common, Charge: t.Charge})
	}
	return out
}
