package counsel

import (
	"slices"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// NotYet is a part that is not to be bought yet.
type NotYet struct {
	Fault *tree.Fault
	Part  string // title
	P     float64
	Take  *tree.Test // what decides it
}

// notYet are the parts of faults that are suspected, that no reading proves, and that a
// test decides. How likely one is proves nothing: even odds are often wrong.
func (c *counsel) notYet() []NotYet {
	if len(c.readings) == 0 {
		return nil // nobody has looked yet
	}
	var out []NotYet
	had := map[string]bool{}
	for _, s := range c.weighing.Ranked() {
		for _, id := range s.Faults {
			p := c.weighing.Fault(id)
			fault := c.pos.System.Fault(id)
			part := c.lib.Parts[fault.Part]
			if p < suspected || part == nil || c.pos.Verdict.Clears(id) || had[fault.Part] || c.partIsDue(fault.Part) {
				continue
			}
			if c.found(id) { // it needs no part; another fault of the part may
				if fault = c.alsoOf(fault); fault == nil {
					continue
				}
				id, p = fault.ID, c.weighing.Fault(fault.ID)
			}
			if take := c.decides(id); take != nil {
				had[fault.Part] = true
				out = append(out, NotYet{Fault: fault, Part: part.Title, P: p, Take: take})
			}
		}
	}
	return out
}

// suspected is how likely a fault must be for anybody to think of buying its part.
const suspected = 0.1

// partIsDue says whether a part is to be bought: a fault of it is shown that no repair
// clears without it, or its faults together are so likely that nothing more would be
// tested. What was read with nothing drawing makes nobody that sure of a part.
func (c *counsel) partIsDue(part string) bool {
	of := func(f *tree.Fault) bool { return f != nil && f.Part == part }
	if slices.ContainsFunc(c.pos.Verdict.Found, func(f walk.Finding) bool { return of(f.Fault) && !c.clearedWithout(f.Fault.ID, part) }) {
		return true
	}
	sum := 0.0
	for _, s := range c.weighing.Ranked() {
		if slices.ContainsFunc(s.Faults, func(f string) bool { return of(c.pos.System.Fault(f)) }) {
			sum += s.P
		}
	}
	return sum >= suspect.Sure && (c.underLoad() || !c.drawn(part))
}

// clearedWithout says whether a repair clears a fault without that part: a flat battery
// is charged before another is bought.
func (c *counsel) clearedWithout(fault, part string) bool {
	return slices.ContainsFunc(c.lib.RepairsFor(c.pos.System.ID), func(r *tree.Repair) bool {
		buys := slices.ContainsFunc(r.Parts, func(l tree.PartUse) bool { return l.Part == part })
		return r.Kind != tree.Conversion && slices.Contains(r.Clears, fault) && !buys
	})
}

// underLoad says whether something was read while a current flowed.
func (c *counsel) underLoad() bool {
	return slices.ContainsFunc(c.readings, func(r suspect.Reading) bool { return c.loads(c.pos.System.Test(r.Test)) })
}

// loads says whether a test reads with a current flowing: with power on, or with a load
// that was put on for it.
func (c *counsel) loads(t *tree.Test) bool {
	return t.Kind == tree.Metered && (c.pos.System.State(t.State).Live() || len(t.With) > 0)
}

// drawn says whether a reading with a current flowing judges a fault of a part, and is
// still open.
func (c *counsel) drawn(part string) bool {
	for _, f := range c.pos.System.Faults {
		if f.Part != part {
			continue
		}
		for id := range c.judging(f.ID) {
			if t := c.pos.System.Test(id); t != nil && c.loads(t) && c.pos.Results[id].Mark == walk.Unknown {
				return true
			}
		}
	}
	return false
}

func (c *counsel) found(fault string) bool {
	return slices.ContainsFunc(c.pos.Verdict.Found, func(f walk.Finding) bool { return f.Fault.ID == fault })
}

// alsoOf is the likeliest other fault of the same part that is not cleared; nil without one.
func (c *counsel) alsoOf(fault *tree.Fault) *tree.Fault {
	var best *tree.Fault
	for _, f := range c.pos.System.Faults {
		if f.Part != fault.Part || f == fault || c.found(f.ID) || c.pos.Verdict.Clears(f.ID) || !c.cloud.Has(f.ID) {
			continue
		}
		if best == nil || c.weighing.Fault(f.ID) > c.weighing.Fault(best.ID) {
			best = f
		}
	}
	return best
}
