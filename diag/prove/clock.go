package prove

import (
	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
)

// clock adds up minutes on the bench: those of each test as often as it is taken,
// with the way to its points once, and those of each piece of work.
type clock struct {
	access  *benchtime.Access
	minutes float64
}

func newClock(sys *tree.System) clock { return clock{access: benchtime.New(sys)} }

func (c *clock) test(t *tree.Test) { c.minutes += c.access.Take(t) }

func (c *clock) work(w *tree.Work) { c.minutes += w.Minutes }
