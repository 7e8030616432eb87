package walk

import (
	"math"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// backward marks a reading below nothing where nothing below nothing is known to be: the
// leads are swapped, or the clamp points the other way. A drop of -0.5 V is no small one,
// and -12 V on a wire is not "no volts". It then proves only what the same figure the
// right way round would prove too, and either may raise a danger. A test that can read
// below nothing says so: by a limit there, or by a known reading.
func (j *judge) backward(r Result) Result {
	if r.Mark != Read || !r.signed() || len(r.Cuts) == 0 || r.Cuts[0] < 0 {
		return r
	}
	known := 0.0
	for _, v := range r.Test.Bands[0].SuchAs {
		known = math.Min(known, v)
	}
	if r.Estimate.Value >= known-2*r.Estimate.U() {
		return r
	}
	other, ok := j.turned(r)
	if !ok || other.Chance[0] > 1-measure.SureAt {
		return r // it says the same either way
	}
	r.Backward = true
	r.Others = append(slices.Clone(r.Others), other.Chance)
	return r
}

// signed says whether the display turns its sign with the leads.
func (r Result) signed() bool {
	switch r.Test.Function {
	case measure.DCVolts, measure.DCAmps, measure.ClampAmps:
		return r.Test.Kind == tree.Metered
	}
	return false
}

// Turned says whether a reading of a test would be taken for one with the leads, or the
// clamp, the wrong way round.
func Turned(sys *tree.System, facts job.Facts, test *tree.Test, e measure.Estimate) bool {
	values, _ := Values(sys, *facts.Intake)
	j := &judge{sheet: newSheet(sys, sys.Index(), 0), facts: facts, values: values}
	return j.backward(j.spread(Result{Test: test, Mark: Read, Estimate: e})).Backward
}
