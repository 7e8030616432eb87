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
	// untested, and of these in doubt: an answer speaks for it and another against
	untested, doubt map[string]bool
	once            bool // all that was put in was found before anything was repaired
	// False are the faults found that were there neither when the machine came
	// in nor then. Denied are faults cleared that are there.
	False  []condemned
	Denied []denied
}

// outcomeOf compares a verdict with the machine. A fault that comes by itself
// (a fuse blown by a chafed wire) may have come after it was cleared; only one
// that was put in, or there from the beginning, is denied.
func outcomeOf(w *run, injected []string) *outcome {
	o := &outcome{
		run: w, found: map[string]bool{}, cleared: map[string]bool{}, masked: map[string]bool{},
		untested: map[string]bool{}, doubt: map[string]bool{},
	}
	for _, s := range w.said {
		o.takeIn(s, injected)
	}
	for _, m := range w.pos.Verdict.Masked {
		o.masked[m.Fault.ID] = true
	}
	for _, u := range w.pos.Verdict.Untested {
		o.untested[u.Fault.ID], o.doubt[u.Fault.ID] = true, len(u.Doubt) > 0
	}
	o.once = o.all(injected)
	if len(w.said) > 1 {
		first := &outcome{run: w, found: map[string]bool{}, cleared: map[string]bool{}}
		first.takeIn(w.said[0], injected)
		o.once = first.all(injected)
	}
	return o
}

// all says whether each of the faults is found, or put right by the walk's work.
func (o *outcome) all(faults []string) bool {
	return !slices.ContainsFunc(faults, func(f string) bool { return !o.found[f] && !o.mended(f) })
}

// takeIn adds what one verdict says. Whatever was wrong before a repair stays
// wrong.
func (o *outcome) takeIn(s spoken, injected []string) {
	o.now = s.now
	for _, f := range s.pos.Verdict.Found {
		id := f.Fault.ID
		o.found[id] = true
		if !s.now[id] && !o.run.before[id] && !o.condemns(id) {
			o.False = append(o.False, condemned{f, s.pos.Results})
		}
	}
	for _, c := range s.pos.Verdict.Cleared {
		id := c.Fault.ID
		o.cleared[id] = true
		if s.now[id] && (o.run.before[id] || slices.Contains(injected, id)) && !o.denies(id) {
			o.Denied = append(o.Denied, denied{c, s.pos.Results})
		}
	}
}

// condemned is a fault found that is not there, and denied one cleared that is,
// with the results at that time.
type (
	condemned struct {
		walk.Finding
		results map[string]walk.Result
	}
	denied struct {
		walk.Clearing
		results map[string]walk.Result
	}
)

func (o *outcome) condemns(fault string) bool {
	return slices.ContainsFunc(o.False, func(f condemned) bool { return f.Fault.ID == fault })
}

func (o *outcome) denies(fault string) bool {
	return slices.ContainsFunc(o.Denied, func(d denied) bool { return d.Fault.ID == fault })
}

// mended says whether the walk's own work put a fault right.
func (o *outcome) mended(fault string) bool { return o.run.before[fault] && !o.now[fault] }

// of is the class of one fault that was put in, the false findings left out.
func (o *outcome) of(fault string) Class {
	switch {
	case o.denies(fault):
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

// left is how many of the faults that the tree judges are neither found nor
// cleared.
func (o *outcome) left() float64 {
	n := 0
	for _, fault := range o.run.reach.judges {
		if !o.found[fault] && !o.cleared[fault] && !o.mended(fault) {
			n++
		}
	}
	return float64(n)
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
// lacks nothing else. With slipped answers a contradiction counts too, and with
// tests that can't be taken whatever the verdict says is untested.
func (o *outcome) close(fault string) bool {
	untested, options := o.untested[fault], o.run.plan.options
	if untested && options.Untaken > 0 || o.doubt[fault] && options.Slip > 0 {
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
	for _, wrong := range o.False {
		if !slices.ContainsFunc(u.Faults, func(f string) bool { return !o.found[f] && alike(f, wrong.Fault.ID) }) {
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
