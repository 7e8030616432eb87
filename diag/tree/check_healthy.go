package tree

import (
	"fmt"
	"math"
	"slices"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

const (
	// sliver is how much of a healthy range may lie in a band that condemns: a round
	// number in healthy: seldom meets a worked-out cut exactly.
	sliver = 0.01
	// mostly is how much of each healthy range must lie in the bands of a finding by
	// several readings. One of them alone is often as it should be.
	mostly = 0.5
)

// healthyCondemned reports findings that a machine could come to on which each
// reading they go by is healthy, with a label left at its defaults.
func (b *builder) healthyCondemned(n *systemNotes) {
	for _, t := range b.lib.TreesFor(n.system.ID) {
		for _, s := range t.Steps {
			if s.Kind == Find {
				b.condemns(n, s)
			}
		}
	}
}

func (b *builder) condemns(n *systemNotes, s *Step) {
	least := mostly
	if len(s.By) == 1 {
		least = sliver
	}
	for _, e := range s.By {
		t := n.system.Test(e.Test)
		if t == nil || t.Healthy == nil || n.uncut[t.ID] {
			return
		}
		share := n.within(t, e.Bands)
		if share <= least || len(s.By) > 1 && math.IsInf(share, 1) {
			return
		}
	}
	if len(s.By) == 0 {
		return
	}
	e := s.By[0]
	t := n.system.Test(e.Test)
	low, high, _ := limits(t.Healthy, n.usual[0].values)
	message := fmt.Sprintf("with a label left at its defaults healthy is %s, and some of that lies %s: the step %q finds %s by it",
		runs(t, low, high), "in "+shape.Quoted(e.Bands), s.ID, s.Fault)
	if len(s.By) > 1 {
		message += ", and what else it goes by is healthy too"
	}
	b.report(CodeCondemned, n.testShapes[t.ID].Healthy.at(), message, "keep healthy: out of that band, or move the cut: what is healthy must find nothing")
}

// at is where the range is written.
func (s *spanShape) at() source.Place {
	if s.From.Place.Line > 0 {
		return s.From.Place
	}
	return s.To.Place
}

// runs is a range in words.
func runs(t *Test, low, high float64) string {
	switch {
	case math.IsInf(low, 0):
		return shownIn(high, t.Unit, t.PerUnit) + " and below"
	case math.IsInf(high, 0):
		return shownIn(low, t.Unit, t.PerUnit) + " and above"
	}
	return shownIn(low, t.Unit, t.PerUnit) + " to " + shownIn(high, t.Unit, t.PerUnit)
}

// within is the share of a test's healthy range that lies in some of its bands.
// Of a range with an open end it counts how far the bands reach in from the other,
// by the size of that; with the open end in them it is infinite.
func (n *systemNotes) within(t *Test, bands []string) float64 {
	low, high, ok := limits(t.Healthy, n.usual[0].values)
	if !ok || !(low < high) {
		return 0
	}
	whole := high - low
	if math.IsInf(whole, 0) {
		whole = math.Abs(low)
		if math.IsInf(low, 0) {
			whole = math.Abs(high)
		}
	}
	lower, in := math.Inf(-1), 0.0
	for _, band := range t.Bands {
		cut, err := band.Cut(n.usual[0].values)
		if err != nil {
			return 0
		}
		if width := min(high, cut) - max(low, lower); width > 0 && slices.Contains(bands, band.Name) {
			in += width
		}
		lower = cut
	}
	return in / max(whole, math.SmallestNonzeroFloat64)
}
