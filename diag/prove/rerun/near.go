package rerun

import (
	"maps"
	"math"
	"slices"

	"benchlead/diag/prove"
	"benchlead/diag/prove/mutant"
	"benchlead/diag/tree"
)

// near knows which walks a change can make a difference to.
type near struct {
	bench *Bench
	ways  []string
	touch mutant.Touch
	zones []zone
}

// zone is where a value must lie for a moved cut to matter.
type zone struct {
	test      int
	low, high float64 // base units
}

func (b *Bench) near(changed *tree.Library, touch mutant.Touch) near {
	n := near{bench: b, touch: touch}
	for _, w := range touch.Ways {
		way := touch.Tree + "/" + w.Step
		if w.Answer != "" {
			way += " " + w.Answer
		}
		n.ways = append(n.ways, way)
	}
	for _, id := range slices.Sorted(maps.Keys(b.lib.Systems)) {
		sys := b.lib.Systems[id]
		if test := sys.Test(touch.Test); test != nil {
			n.zones = append(n.zones, b.zones(sys, test, changed.Systems[id].Test(touch.Test))...)
		}
	}
	return n
}

// zones are from each cut as it was to the cut as it is.
func (b *Bench) zones(sys *tree.System, was, is *tree.Test) []zone {
	var out []zone
	values := sys.LabelValues(nil, nil, prove.Celsius)
	for i := range was.Bands {
		before, err := was.Bands[i].Cut(values)
		if err != nil {
			continue
		}
		after, err := is.Bands[i].Cut(values)
		if err == nil && before != after {
			out = append(out, zone{b.tests.number(was.ID), min(before, after), max(before, after)})
		}
	}
	return out
}

// comes says whether a walk comes near the change: by a way that leads elsewhere,
// with a judgement by all that a step went by, which is gone, or with a value that
// a moved cut may put elsewhere. A value that several bands together are called
// for, and that the change tears apart, is left out of account.
func (n *near) comes(t *trial) bool {
	for _, way := range n.ways {
		if n.bench.ways.has(t.ways, way) {
			return true
		}
	}
	if slices.ContainsFunc(t.judged, n.loses) {
		return true
	}
	for _, z := range n.zones {
		if slices.ContainsFunc(t.figures, z.holds) {
			return true
		}
	}
	return false
}

// loses says whether a judgement may rest on the step that is gone.
func (n *near) loses(j judgement) bool {
	return n.touch.Lost == j.fault &&
		!slices.ContainsFunc(n.touch.LostBy, func(test string) bool { return !n.bench.tests.has(j.by, test) })
}

// holds says whether a value lies in the zone, or so near that its uncertainty
// reaches into it.
func (z zone) holds(f figure) bool {
	const reach = 6 // standard uncertainties: one in five hundred million lies outside
	if f.test != z.test {
		return false
	}
	at := math.Max(z.low, math.Min(z.high, f.value))
	return math.Abs(f.value-at) <= reach*f.u
}
