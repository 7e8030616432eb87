package repair

import (
	"slices"

	"benchlead/diag/tree"
)

// Saved is a good part that comes off with a repair and may go into the parts bin,
// once all that it Needs is shown.
type Saved struct {
	Part  *tree.Part
	Needs []string // what is not shown yet
}

// saved are the parts of the repairs that come off for the bin: every fault of them
// is cleared by the readings, and they may be kept at all.
func (a *ask) saved(set []*tree.Repair) []Saved {
	good, _ := a.partsLeft()
	var out []Saved
	for _, r := range set {
		for _, id := range r.Bin {
			part := a.lib.Parts[id]
			had := slices.ContainsFunc(out, func(s Saved) bool { return s.Part == part })
			if part != nil && !had && slices.Contains(good, part) {
				out = append(out, Saved{Part: part, Needs: slices.Clone(part.BinNeeds)})
			}
		}
	}
	return out
}
