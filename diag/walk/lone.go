package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// lone marks a single reading below nothing of a test that can read so. A battery charged
// backwards shows -12 V, and so does a sound one with the probes swapped, which is far
// commoner (common practice, no source). It proves nothing before a second reading agrees
// with it, or the tech, asked, stands by it. Amps that flow out are no rare thing.
func (j *judge) lone(r Result) Result {
	if r.Mark != Read || r.Astray || r.Backward || r.kept || r.Count > 1 || r.Test.Kind != tree.Metered || r.Test.Function != measure.DCVolts || len(r.Cuts) == 0 || r.Cuts[0] >= 0 {
		return r
	}
	if r.Chance[0] <= 1-measure.SureAt {
		return r // the lowest band is out of it: a little below nothing is nothing
	}
	other, ok := j.turned(r)
	if !ok {
		return r
	}
	r.Lone, r.Backward = true, true
	r.Others = append(slices.Clone(r.Others), other.Chance)
	return r
}

// turned is a reading with the leads the other way round.
func (j *judge) turned(r Result) (Result, bool) {
	e := measure.Combine(-r.Estimate.Value, []measure.Estimate{r.Estimate}, []float64{-1})
	other := j.spread(Result{Test: r.Test, Mark: Read, Estimate: e})
	return other, other.Mark == Read
}

// Doubtful says whether a reading of a test would be one below nothing that doesn't count
// by itself. One that agrees with what was read before counts.
func Doubtful(sys *tree.System, facts job.Facts, test *tree.Test, e measure.Estimate) bool {
	values, _ := Values(sys, *facts.Intake)
	j := &judge{sheet: newSheet(sys, sys.Index(), 0), facts: facts, values: values}
	for _, was := range j.before(test, append(slices.Clone(facts.Current(test.ID)), job.Answer{})) {
		if was.numbered && agree(was.estimate, e) {
			return false
		}
	}
	return j.lone(j.spread(Result{Test: test, Mark: Read, Estimate: e, Count: 1})).Lone
}
