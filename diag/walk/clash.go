package walk

import (
	"math"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// clashes marks readings that can't be beside another, by System.Agree: a battery that
// rises while the starter draws. One of the two is wrong, and nobody knows which, so that
// neither proves anything. Beside a battery below nothing there is nothing above it: one
// of the two was read with the leads swapped.
func (j *judge) clashes() {
	for i := range j.system.Agree {
		rule := &j.system.Agree[i]
		most := j.figure(rule.Most)
		if most == nil {
			continue
		}
		limit := most.Estimate
		limit.Value = max(0, limit.Value)
		for _, id := range rule.Each {
			if r := j.number(id); r != nil && over(r.Estimate, limit, rule.Over) {
				r.Clash, most.Clash = rule, rule
			}
		}
	}
}

// number is the result of a test that has a number which is not in doubt by itself; nil
// without one.
func (j *judge) number(id string) *Result {
	if r := j.figure(id); r != nil && !r.Backward {
		return r
	}
	return nil
}

// figure is the same, and counts one below nothing that was read once: it clashes with what
// is above nothing whichever way the leads were.
func (j *judge) figure(id string) *Result {
	r := j.sheet.at(j.system.TestAt(id))
	if r == nil || r.Mark != Read || r.Mute() || r.Astray || r.Backward && !r.Lone || math.IsInf(r.Estimate.Value, 0) {
		return nil
	}
	return r
}

// over says whether one reading is surely more than another and some room together:
// beyond two standard uncertainties.
func over(r, most measure.Estimate, room float64) bool {
	by := measure.Combine(r.Value-most.Value-room, []measure.Estimate{r, most}, []float64{1, -1})
	return by.Value > 2*by.U()
}

// mostClashing is how often a test is read before what it clashes with is left in doubt:
// once, and once more.
const mostClashing = 2

// clashing is a test to be taken once more, because its reading can't be beside another;
// what is read without power goes first. nil when all were.
func clashing(sys *tree.System, at func(id string) *Result, facts job.Facts) *tree.Test {
	var out []*tree.Test
	for _, rule := range sys.Agree {
		for _, id := range append([]string{rule.Most}, rule.Each...) {
			if r := at(id); r != nil && r.Clash != nil && facts.Times(id) < mostClashing {
				out = append(out, r.Test)
			}
		}
	}
	live := func(t *tree.Test) bool { return sys.State(t.State).Live() }
	if i := slices.IndexFunc(out, func(t *tree.Test) bool { return !live(t) }); i >= 0 {
		return out[i]
	}
	if len(out) > 0 {
		return out[0]
	}
	return nil
}
