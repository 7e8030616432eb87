package app

import (
	"context"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/record"
)

// mostOwn is how many proved jobs count, the newest of all systems together: a
// list of how common faults are weighs as much as thirty, and what a shop saw years
// ago says little of what comes in now. Judgement.
const mostOwn = 1000

// ownJobs is what the shop's own jobs that were closed as repaired and proved have
// shown, by system.
func ownJobs(ctx context.Context, store job.Store) (map[string]counsel.Shop, error) {
	proved := record.Any{Is: []string{record.Mark(record.OfOutcome, string(job.Proved))}}
	found, err := keeperOf(store).Search(ctx, record.Query{All: []record.Any{proved}, Most: mostOwn})
	if err != nil {
		return nil, err
	}
	out := map[string]counsel.Shop{}
	for _, c := range found.Cards {
		shop := out[c.System]
		if shop.Found == nil {
			shop.Found, shop.Last = map[string]int{}, map[string][][]string{}
		}
		shop.Jobs++
		for _, fault := range c.Came {
			shop.Found[fault]++
		}
		shop.Last[c.Complaint] = append(shop.Last[c.Complaint], c.Came)
		out[c.System] = shop
	}
	return out, nil
}
