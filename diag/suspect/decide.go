package suspect

// Sure is how likely the first suspect must be to be named: high enough that one
// answer that is chance seldom names another.
const Sure = 0.97

// partner is how likely it may be that what should have charged a battery or pack
// is faulty, too, while the battery is named and that is not: a new one would soon
// be flat again.
const partner = 0.02

// Named is the first suspect, and whether it can be named: it is sure, and where it
// is a battery or pack, what should have charged it is not suspected besides.
func (w Weighing) Named() (Suspect, bool) {
	top := w.Ranked()[0]
	if top.P < Sure {
		return top, false
	}
	for _, fault := range w.cloud.charging(top.Hypothesis) {
		if !top.Has(fault) && w.Fault(fault) > partner {
			return top, false
		}
	}
	return top, true
}

// charging is the faults of what should charge the parts that a hypothesis is
// about, by the pairs of which the circuit says so.
func (c *Cloud) charging(h Hypothesis) []string {
	about := map[string]bool{}
	for _, f := range h.Faults {
		about[c.system.Fault(f).Part] = true
	}
	var out []string
	for _, pair := range c.hypotheses {
		if !pair.Charge || !about[c.system.Fault(pair.Faults[0]).Part] {
			continue
		}
		for _, f := range pair.Faults {
			if !about[c.system.Fault(f).Part] {
				out = append(out, f)
			}
		}
	}
	return out
}
