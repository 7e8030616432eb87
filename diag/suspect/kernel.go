package suspect

import (
	"math"
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// kernel is how far a reading may lie from what a machine of the cloud shows and
// still be that machine's: clouds are thin, and no simulated machine is quite the
// one on the bench. Judgement, from a study on simulated machines; it decides how
// sure the weighing is, and no limit.
type kernel struct {
	base  float64 // standard deviation at nothing, base units
	share float64 // and for each unit of the value
}

func (k kernel) width(v float64) float64 { return k.base + k.share*math.Abs(v) }

// wider is the kernel so many times as wide.
func (k kernel) wider(by float64) kernel { return kernel{by * k.base, by * k.share} }

// place is where a value lies on a scale on which the kernel is one wide.
func (k kernel) place(v float64) float64 {
	if k.share == 0 {
		return v / k.base
	}
	return math.Copysign(math.Log1p(k.share*math.Abs(v)/k.base)/k.share, v)
}

// kernelOf is the kernel of a test whose values over the cloud have this median size
// and whose smallest limit is that, in base units (V, ohm, A, rpm, degC, s).
func kernelOf(test *tree.Test, risk Risk, size, limit float64) kernel {
	const volts, little, much, part = 2, 0.004, 0.05, 0.1
	switch test.Function {
	case measure.DCVolts, measure.ACVolts:
		switch {
		case risk == Power: // the starter's amps differ from machine to machine
			return kernel{0.05, 0.04}
		case size > volts: // at rest, or running: little flows that differs
			return kernel{0.05, 0.004}
		}
		return kernel{math.Max(little, math.Min(much, part*limit)), 0.08}
	case measure.Ohms, measure.Continuity:
		return kernel{0.1, 0.12}
	case measure.DiodeTest:
		return kernel{0.04, 0.02}
	case measure.DCAmps:
		return kernel{little, 0.08}
	case measure.ClampAmps:
		return kernel{1, 0.06}
	case measure.Speed:
		return kernel{20, 0.05}
	case measure.Celsius:
		return kernel{1, 0.02}
	}
	return kernel{0.15, 0.06} // seconds
}

// median is the median of something about the numbers of a column; 0 for none.
func median(column []shown, of func(shown) float64) float64 {
	var all []float64
	for _, s := range column {
		if s.kind == Number {
			all = append(all, of(s))
		}
	}
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[len(all)/2]
}
