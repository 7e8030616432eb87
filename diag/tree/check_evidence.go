package tree

import (
	"fmt"
	"slices"

	"benchlead/diag/shape"
)

// checkEvidence: what a finding rests on is asked on every way to it, and can
// come out so on some way.
func (b *builder) checkEvidence(d *draft) {
	for _, s := range d.tree.Steps {
		if s.Kind != Find && s.Kind != Clear {
			continue
		}
		b.evidenceClears(d, s)
		t := newTrace(b, d, s)
		t.search()
		b.evidenceAsked(t, s)
		if len(t.reach) < mostSpots { // otherwise there may be a way that wasn't seen
			b.evidenceHolds(t, s)
		}
	}
}

// evidenceClears reports a band or choice that finds a fault and clears it too: in free
// order it would depend on the step which of the two counts.
func (b *builder) evidenceClears(d *draft, s *Step) {
	if s.Kind != Find {
		return
	}
	for _, e := range s.By {
		for _, n := range d.notes {
			if band := clearingBand(n.system.Test(e.Test), e.Bands, s.Fault); band != "" {
				b.report(CodeFindsAndClears, e.Place, fmt.Sprintf("%q of %q clears %s, and here it is to find it", band, e.Test, s.Fault),
					fmt.Sprintf("take the band away here, or %s out of that band's clears:", s.Fault))
				break
			}
		}
	}
}

// clearingBand is the first of some bands or choices of a test that clears a fault; ""
// when none does.
func clearingBand(t *Test, bands []string, fault string) string {
	if t == nil {
		return ""
	}
	for _, band := range t.Bands {
		if slices.Contains(bands, band.Name) && slices.Contains(band.Clears, fault) {
			return band.Name
		}
	}
	for _, c := range t.Choices {
		if slices.Contains(bands, c.Name) && slices.Contains(c.Clears, fault) {
			return c.Name
		}
	}
	return ""
}

func (b *builder) evidenceAsked(t *trace, s *Step) {
	here := t.d.number(s.ID)
	for _, e := range s.By {
		at := slices.IndexFunc(t.reach, func(at spot) bool { return at.step == here && !t.isKnown(e.Test, at.known) })
		if at >= 0 {
			b.report(CodeNotAsked, e.Place, fmt.Sprintf("%q isn't asked on every way to %q: not on %s", e.Test, s.ID, arrows(t.path(at))),
				"ask it on that way, or lead that way past this step")
		}
	}
}

// evidenceHolds reports evidence that no walk can bring along to its step.
func (b *builder) evidenceHolds(t *trace, s *Step) {
	here, together, each := t.d.number(s.ID), false, make([]bool, len(s.By))
	for _, at := range t.reach {
		if at.step != here {
			continue
		}
		all := true
		for i, e := range s.By {
			ok := t.holds(e, at.known) || !t.isKnown(e.Test, at.known)
			each[i] = each[i] || ok
			all = all && ok
		}
		together = together || all
	}
	if i := slices.Index(each, false); i >= 0 {
		e := s.By[i]
		b.report(CodeNeverHolds, e.Place, fmt.Sprintf("no way to %q leaves %q at %s", s.ID, e.Test, shape.Quoted(e.Bands)), "route that band here, or name the bands that lead here")
		return
	}
	if !together && len(s.By) > 0 {
		b.report(CodeNeverHolds, s.Place, fmt.Sprintf("no way to %q brings all of its evidence together", s.ID), "name the bands that lead here, or find it by less")
	}
}
