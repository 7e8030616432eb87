package repair

import (
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// CodeUnpriced is of a part that repairs take and that has no price.
const CodeUnpriced source.Code = "part-without-price"

// Remarks are the parts of the trees' repairs that the book has no price for, each at
// the first repair that takes it. That is no mistake: a shop may leave out what it
// never sells. A book without any prices has nothing to remark.
func (b *PriceBook) Remarks(lib *tree.Library) source.Issues {
	if len(b.Prices) == 0 {
		return nil
	}
	had := map[string]bool{}
	for _, p := range b.Prices {
		had[p.Part] = true
	}
	var out source.Issues
	for _, id := range slices.Sorted(maps.Keys(lib.Repairs)) {
		r := lib.Repairs[id]
		for _, use := range r.Parts {
			if had[use.Part] {
				continue
			}
			had[use.Part] = true
			out = append(out, source.Issue{
				Code: CodeUnpriced, Place: r.Place,
				Message: fmt.Sprintf("the repair %q takes the part %q, which has no price: no total is shown for it", r.ID, use.Part),
				Hint:    "add the part to the prices, or leave it out if the shop never sells it",
			})
		}
	}
	return out.Sorted()
}
