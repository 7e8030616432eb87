package walk

import (
	"slices"

	"benchlead/diag/measure"
)

// dangerAt is the probability from which a dangerous band is shown. A danger
// must not hide behind a limit that the meter can't resolve.
const dangerAt = 1 - measure.SureAt

// Raises says whether the result is in band i, or may be, surely enough to raise what
// the band warns of. What must be proved safe counts as soon as it may be otherwise.
// Where the caution itself says so, its band has to be the likeliest: a reading that the
// meter can't tell from a harmless one then stops nobody's work. Of readings that
// disagree each may raise it.
func (r Result) Raises(i int) bool {
	return raises(r, r.Chance, i) || slices.ContainsFunc(r.Others, func(chance []float64) bool { return raises(r, chance, i) })
}

func raises(r Result, chance []float64, i int) bool {
	if i >= len(chance) || chance[i] <= dangerAt {
		return false
	}
	return !r.Test.Bands[i].Likely || chance[i] >= slices.Max(chance)
}
