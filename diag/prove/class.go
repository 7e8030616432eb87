package prove

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// outcome is what a walk says, beside what is there.
type outcome struct {
	run     *run
	now     map[string]bool // faults there at the end
	found   map[string]bool
	cleared map[string]bool
	masked  map[string]bool
	doubt   map[string]bool
	// False are the faults found that were there neither when the machine came
	// in nor at the end. Denied are faults cleared that are there.
	False, Denied []string
}

// outcomeOf compares a verdict with the machine. A fault that comes by itself
// (a fuse blown by a chafed wire) may have come after it was cleared; only one
// that was put in, or there from the beginning, is denied.
func outcomeOf(w *run, injected []string) (*outcome, error) {
	now, err := w.machine.Present()
	if err != nil {
		return nil, err
	}
	o := &outcome{
		run: w, now: set(now), found: map[string]bool{}, cleared: map[string]bool{}, masked: map[string]bool{},
		doubt: map[string]bool{},
	}
	v := w.pos.Verdict
	for _, f := range v.Found {
		o.found[f.Fault.ID] = true
		if !o.now[f.Fault.ID] && !w.before[f.Fault.ID] {
			o.False = append(o.False, f.Fault.ID)
		}
	}
	for _, c := range v.Cleared {
		id := c.Fault.ID
		o.cleared[id] = true
		if o.now[id] && (w.before[id] || slices.Contains(injected, id)) {
			o.Denied = append(o.Denied, id)
		}
	}
	for _, m := range v.Masked {
		o.masked[m.Fault.ID] = true
	}
	for _, u := range v.Untested {
		o.doubt[u.Fault.ID] = len(u.Doubt) > 0
	}
	return o, nil
}

// mended says whether the walk's own work put a fault right.
func (o *outcome) mended(fault string) bool { return o.run.before[fault] && !o.now[fault] }

// of is the class of one fault that was put in, the false findings left out.
func (o *outcome) of(fault string) Class {
	switch {
	case slices.Contains(o.Denied, fault):
		return Wrong
	case o.found[fault], o.mended(fault):
		return Found
	case o.run.endless:
		return Missed
	case o.masked[fault]:
		return Masked
	case o.close(fault):
		return Close
	case o.otherReal(fault):
		return Masked
	}
	return Missed
}

// otherReal says whether another fault was found that is really there.
func (o *outcome) otherReal(fault string) bool {
	for id := range o.found {
		if id != fault && (o.now[id] || o.run.before[id]) {
			return true
		}
	}
	return false
}

// close says whether a reading that could not be called left a fault untested:
// the walk went on by `unsure` because of it, or a step that finds the fault
// lacks nothing else. With slipped answers a contradiction counts too.
func (o *outcome) close(fault string) bool {
	if o.doubt[fault] && o.run.plan.options.Slip > 0 {
		return true
	}
	results := o.run.pos.Results
	for _, v := range o.run.pos.Trail {
		if v.Kind == tree.Ask && v.Outcome == tree.Unsure && hazy(results[v.Test]) {
			return true
		}
	}
	for _, t := range o.run.reach.trees {
		for _, s := range t.Steps {
			if s.Kind == tree.Find && s.Fault == fault && almost(s.By, results) {
				return true
			}
		}
	}
	return false
}

// hazy says whether a test was read and can't be called.
func hazy(r walk.Result) bool {
	return r.Mark == walk.Read && r.Call().Answer != measure.Called
}

// almost says whether evidence would stand if only readings that can't be called
// came out for it.
func almost(by []tree.Evidence, results map[string]walk.Result) bool {
	hazed := false
	for _, e := range by {
		r := results[e.Test]
		if r.Mark == walk.Read && r.Mute() {
			hazed = true
			continue
		}
		chance, _, ok := r.Within(e.Bands)
		switch {
		case !ok || chance <= 1-measure.SureAt:
			return false
		case chance < measure.SureAt:
			hazed = true
		}
	}
	return hazed
}

// worst is the class of the whole machine. alike says whether two faults can't
// be told apart.
func (o *outcome) worst(u Unit, alike func(a, b string) bool) Class {
	group := len(o.False) > 0 && o.only(u, alike)
	if len(o.Denied) > 0 || len(o.False) > 0 && !group {
		return Wrong
	}
	switch {
	case u.Kind == Other:
		return Quiet
	case u.Kind == Pair:
		return o.both(u, group)
	}
	class := o.of(u.Faults[0])
	if group && class != Found {
		return Group
	}
	return class
}

// only says whether nothing is found but what can't be told from a fault that
// was put in and is not found itself.
func (o *outcome) only(u Unit, alike func(a, b string) bool) bool {
	for _, id := range o.False {
		if !slices.ContainsFunc(u.Faults, func(f string) bool { return !o.found[f] && alike(f, id) }) {
			return false
		}
	}
	return u.Kind == Pair || len(o.False) == len(o.found)
}

// both is the class of two faults: found when both are, masked when one is and
// the other is left and said to be.
func (o *outcome) both(u Unit, group bool) Class {
	a, b := o.of(u.Faults[0]), o.of(u.Faults[1])
	switch {
	case a == Found && b == Found:
		return Found
	case group:
		return Group
	case a == Found || b == Found:
		return Masked
	case a == Missed && b == Missed:
		return Missed
	case a == Close || b == Close:
		return Close
	case a == Masked || b == Masked:
		return Masked
	}
	return Missed
}
