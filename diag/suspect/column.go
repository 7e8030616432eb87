package suspect

import (
	"math"

	"benchlead/diag/tree"
)

// chance is the share of answers that are wrong because of hand or eye. Common
// practice, no source; a study on simulated machines found it to do no harm where
// none slip, and to keep the truth alive where five in a hundred do.
const chance = 0.02

// odd is the share of chance answers that are no number where numbers are usual.
const odd = 0.1

// binWidth is how many kernels a bin is wide: readings closer than that are not
// told apart.
const binWidth = 2

// loose is how much wider kernels are for clouds of about a hundred machines of a
// hypothesis with one complaint; thick clouds of a world that is just as the circuit
// says would do with 1. A world that is wider needs it.
const loose = 2.6

// steadied is the share of meters and hands that read one number where the display of
// another never settles: slow ones show a mean. Common practice, no source.
const steadied = 0.3

// nothing is the part of a test's lowest limit below which all readings are the
// same: volts on a wire that hangs loose, ohms of a contact beside the leads'.
const nothing = 0.1

// column is what one test shows on every machine.
type column struct {
	test    *tree.Test
	shown   []shown // by machine
	kernel  kernel
	nothing float64 // what is smaller is nothing, base units
	usualU  float64 // the meter's standard uncertainty, usually; base units
	flat    float64 // density of a reading that is chance, by base unit
	bins    []int16 // by machine: the same bin for what a reading can't tell apart; -1: no answer
	count   int     // of bins
}

// sized is a value, with what is next to nothing taken for nothing.
func (c *column) sized(v float64) float64 {
	if math.Abs(v) < c.nothing {
		return 0
	}
	return v
}

// finish works out what all machines' answers have in common.
func (c *column) finish(sys *tree.System) {
	limit := lowest(sys, c.test)
	size := median(c.shown, func(s shown) float64 { return math.Abs(float64(s.value)) })
	c.usualU = median(c.shown, func(s shown) float64 { return float64(s.u) })
	c.kernel = kernelOf(c.test, riskOf(sys, c.test), size, limit).wider(loose)
	c.kernel.base = math.Hypot(c.kernel.base, c.usualU) // what the meter can't tell apart, nobody can
	c.nothing = nothing * limit
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range c.shown {
		if s.kind == Number {
			v := c.sized(float64(s.value))
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		low, high = 0, 0
	}
	const beyond = 5 // kernels that a chance reading may lie outside of all machines
	low, high = low-beyond*c.kernel.width(low), high+beyond*c.kernel.width(high)
	c.flat = (1 - odd) / (high - low)
	c.bin()
}

// lowest is the size of a test's smallest limit at the usual label; 0 for none.
func lowest(sys *tree.System, t *tree.Test) float64 {
	values, size := sys.LabelValues(nil, nil, benchCelsius), 0.0
	for _, band := range t.Bands {
		cut, err := band.Cut(values)
		if err == nil && cut != 0 && !math.IsInf(cut, 0) && (size == 0 || math.Abs(cut) < size) {
			size = math.Abs(cut)
		}
	}
	return size
}

// benchCelsius is the temperature of the bench, degC, that limits are looked at.
const benchCelsius = 20

// bin puts the machines' answers into bins.
func (c *column) bin() {
	at := map[[2]int64]int16{}
	c.bins = make([]int16, len(c.shown))
	for i, s := range c.shown {
		if s.kind == None {
			c.bins[i] = -1
			continue
		}
		key := [2]int64{int64(s.kind), int64(s.choice)}
		if s.kind == Number {
			key[1] = int64(math.Floor(c.kernel.place(c.sized(float64(s.value))) / binWidth))
		}
		n, had := at[key]
		if !had {
			n = int16(len(at))
			at[key] = n
		}
		c.bins[i] = n
	}
	c.count = len(at)
}

// slip is the part of a fit that is chance: a density for numbers, a share for the
// rest.
func (c *column) slip(k Kind) float64 {
	switch k {
	case Number:
		return chance * c.flat
	case Seen:
		return chance / float64(max(len(c.test.Choices), 1))
	}
	return chance * odd
}

// fit is how well an answer fits what a machine shows, chance left out.
func (c *column) fit(a Answer, choice uint8, s shown) float64 {
	switch {
	case s.kind == Flicker && a.Kind == Number:
		return steadied * (1 - chance) * c.density(a, float64(s.value), float64(s.u))
	case s.kind == Flicker && a.Kind == Flicker:
		return (1 - steadied) * (1 - chance)
	case s.kind != a.Kind, s.kind == Seen && s.choice != choice:
		return 0
	case s.kind != Number:
		return 1 - chance
	}
	return (1 - chance) * c.density(a, float64(s.value), 0)
}

// density is that of a number beside one that a machine shows, which may lie so far to
// either side.
func (c *column) density(a Answer, value, spread float64) float64 {
	v := c.sized(value)
	d := c.sized(a.Value) - v
	width := math.Hypot(c.kernel.width(v), spread) // the meter's error is in it; a reading surer than usual gains nothing
	if a.U > c.usualU {
		width = math.Hypot(width, a.U)
	}
	return math.Exp(-d*d/(2*width*width)) / (width * math.Sqrt(2*math.Pi))
}
