package walk

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// partition puts every fault of the system in exactly one list. removed are
// faults whose parts a conversion took off the machine.
func (e *evidence) partition(removed map[string]bool) Verdict {
	var v Verdict
	var open []*tree.Fault
	for _, fault := range e.system.Faults {
		found, isFound := e.found[fault.ID]
		cleared, isCleared := e.cleared[fault.ID]
		switch {
		case removed[fault.ID]:
			v.Cleared = append(v.Cleared, Clearing{Fault: fault, Removed: true})
		case isFound && isCleared:
			doubt := append(slices.Clone(found.Evidence), cleared.Evidence...)
			v.Untested = append(v.Untested, Untested{Fault: fault, Doubt: doubt})
		case isFound:
			v.Found = append(v.Found, found)
		case isCleared:
			v.Cleared = append(v.Cleared, cleared)
		default:
			open = append(open, fault)
		}
	}
	for _, fault := range open {
		if by := maskedBy(fault, v.Found); by != nil {
			v.Masked = append(v.Masked, Masking{Fault: fault, By: by})
			continue
		}
		v.Untested = append(v.Untested, Untested{Fault: fault})
	}
	v.Unclear = e.unclear()
	return v
}

func maskedBy(fault *tree.Fault, found []Finding) *tree.Fault {
	for _, f := range found {
		if slices.Contains(f.Fault.Masks, fault.ID) {
			return f.Fault
		}
	}
	return nil
}

// unclear lists the answers that decide nothing, and what would.
func (e *evidence) unclear() []Unclear {
	var out []Unclear
	for _, test := range e.system.Tests {
		if u, ok := e.unclearTest(e.results[test.ID]); ok {
			out = append(out, u)
		}
	}
	return out
}

func (e *evidence) unclearTest(r Result) (Unclear, bool) {
	u := Unclear{Test: r.Test}
	switch {
	case r.Mark == Unknown, r.Test.Kind == tree.Worked && r.Mark == Passed:
		return u, false
	case r.Mark == Passed:
		u.Why = r.Why
		return u, true
	case r.Mark == Seen:
		i := slices.IndexFunc(r.Test.Choices, func(c tree.Choice) bool { return c.Name == r.Choice })
		if i < 0 || !e.wanted(r.Test.Choices[i].Take) {
			return u, false
		}
		u.Why, u.Take = r.Test.Choices[i].Says, e.system.Test(r.Test.Choices[i].Take)
		return u, true
	case r.Flicker:
		u.Why = string(measure.ByMachine)
		return u, true
	case r.Over:
		u.Why = "over range: choose a higher range and read again"
		return u, true
	}
	return e.unclearBand(r, u)
}

// unclearBand speaks of a reading too close to a limit that matters, or of one
// that proves nothing by itself.
func (e *evidence) unclearBand(r Result, u Unclear) (Unclear, bool) {
	call := r.Call()
	if r.Astray {
		u.Why = "readings taken one after another disagree; take it again"
		return u, true
	}
	if call.Answer != measure.Called {
		u.Why = string(call.Answer)
		return u, true
	}
	band := r.Test.Bands[call.Band]
	if !e.wanted(band.Take) {
		return u, false
	}
	u.Why, u.Take = band.Says, e.system.Test(band.Take)
	return u, true
}

// wanted says whether a test that would tell is still open.
func (e *evidence) wanted(take string) bool {
	if take == "" {
		return false
	}
	r, ok := e.results[take]
	return ok && r.Mark != Read && r.Mark != Seen
}
