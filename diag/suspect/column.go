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

// finish works out what all machines' answers have in common.
func (c *column) finish(sys *tree.System) {
	c.kernel = kernelOf(c.test, sys.State(c.test.State).Live(), middle(c.shown))
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range c.shown {
		if s.kind == Number {
			low, high = math.Min(low, float64(s.value)), math.Max(high, float64(s.value))
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
			key[1] = int64(math.Floor(c.kernel.place(float64(s.value)) / binWidth))
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

// fit is how well an answer fits a machine: a density for numbers, a share for the
// rest. slip is the part of it that is chance.
func (c *column) fit(a Answer, choice uint8, s shown) (fit, slip float64) {
	switch a.Kind {
	case Number:
		slip = chance * c.flat
		if s.kind == Number {
			d := a.Value - float64(s.value)
			width := math.Hypot(c.kernel.width(float64(s.value)), a.U)
			fit = (1 - chance) * math.Exp(-d*d/(2*width*width)) / (width * math.Sqrt(2*math.Pi))
		}
	case Seen:
		slip = chance / float64(max(len(c.test.Choices), 1))
		if s.kind == Seen && s.choice == choice {
			fit = 1 - chance
		}
	default:
		slip = chance * odd
		if s.kind == a.Kind {
			fit = 1 - chance
		}
	}
	return fit + slip, slip
}
