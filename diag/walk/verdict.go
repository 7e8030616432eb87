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
	open := make([]int, 0, len(e.verdicts))
	var shown []int // the faults of v.Found
	for at, fault := range e.system.Faults {
		is := e.verdicts[at]
		switch {
		case removed[fault.ID]:
			v.Cleared = append(v.Cleared, Clearing{Fault: fault, Removed: true})
		case is.found > 0 && is.cleared > 0:
			doubt := slices.Concat(e.found[is.found-1].Evidence, e.cleared[is.cleared-1].Evidence)
			v.Untested = append(v.Untested, Untested{Fault: fault, Doubt: doubt})
		case is.found > 0:
			v.Found, shown = append(v.Found, e.found[is.found-1]), append(shown, at)
		case is.cleared > 0:
			v.Cleared = append(v.Cleared, e.cleared[is.cleared-1])
		default:
			open = append(open, at)
		}
	}
	by := e.masks(shown)
	for _, at := range open {
		fault := e.system.Faults[at]
		if by != nil && by[at] != nil {
			v.Masked = append(v.Masked, Masking{Fault: fault, By: by[at]})
			continue
		}
		v.Untested = append(v.Untested, Untested{Fault: fault})
	}
	v.Unclear = e.unclear()
	return v
}

// masks is, by fault, the first of the shown faults that masks it.
func (e *evidence) masks(shown []int) []*tree.Fault {
	if len(shown) == 0 {
		return nil
	}
	by := make([]*tree.Fault, len(e.system.Faults))
	for _, at := range shown {
		for _, masked := range e.index.Masks[at] {
			if by[masked] == nil {
				by[masked] = e.system.Faults[at]
			}
		}
	}
	return by
}

// unclear lists the answers that decide nothing, and what would.
func (e *evidence) unclear() []Unclear {
	var out []Unclear
	for at := range e.system.Tests {
		r := e.sheet.at(at)
		if r == nil {
			continue
		}
		if u, ok := e.unclearTest(r); ok {
			out = append(out, u)
		}
	}
	return out
}

func (e *evidence) unclearTest(r *Result) (Unclear, bool) {
	u := Unclear{Test: r.Test}
	switch {
	case r.Test.Kind == tree.Worked && r.Mark == Passed:
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
func (e *evidence) unclearBand(r *Result, u Unclear) (Unclear, bool) {
	call := r.Call()
	if r.Astray {
		u.Why = string(measure.ByRepeat) + "; take it again"
		return u, true
	}
	if r.Clash != nil {
		u.Why = r.Clash.Says + " One of the two readings is wrong; take both again"
		return u, true
	}
	if r.Lone {
		u.Why = string(measure.ByOne) + "; look where red and black are, and take it once more"
		return u, true
	}
	if r.Backward {
		u.Why = string(measure.ByLeads) + "; turn them and take it again"
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
	at := e.system.TestAt(take)
	if at < 0 {
		return false
	}
	r := e.sheet.at(at)
	return r == nil || r.Mark == Passed
}
