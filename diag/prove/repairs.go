package prove

import (
	"cmp"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// spoken is what a verdict says, and the faults that the machine has at that time.
type spoken struct {
	pos walk.Position
	now map[string]bool
}

// mostRepairs is how often a machine is repaired. Two faults need two.
const mostRepairs = 3

// repair mends what the last verdict found, as the tech would: the part is
// changed, whether it was bad or not. False: nothing is found, or it was repaired
// often enough.
func (w *run) repair() bool {
	if len(w.said) > mostRepairs {
		return false
	}
	repairs := RepairsFor(w.plan.lib, w.reach.system.ID, w.pos.Verdict.Found)
	if len(repairs) == 0 {
		return false
	}
	var ids []string
	for _, r := range repairs {
		ids = append(ids, r.ID)
	}
	w.gone(w.pos, strings.Join(ids, " and "))
	w.trail = nil
	w.worked = true
	w.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: ids}})
	for _, r := range repairs {
		if w.fails(w.machine.Mend(r.Clears...)) {
			return false
		}
		w.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: r.ID, Stales: walk.StaledBy(w.plan.lib, w.reach.system, r)}})
	}
	return true
}

// RepairsFor is a repair for each finding, the shortest; none twice.
func RepairsFor(lib *tree.Library, system string, found []walk.Finding) []*tree.Repair {
	var out []*tree.Repair
	for _, f := range found {
		var best *tree.Repair
		for _, r := range lib.Repairs {
			if r.Kind != tree.Conversion && slices.Contains(r.Systems, system) && slices.Contains(r.Clears, f.Fault.ID) {
				if best == nil || cmp.Or(cmp.Compare(r.Minutes, best.Minutes), cmp.Compare(r.ID, best.ID)) < 0 {
					best = r
				}
			}
		}
		if best != nil && !slices.Contains(out, best) {
			out = append(out, best)
		}
	}
	return out
}
