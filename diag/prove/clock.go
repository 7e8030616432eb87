package prove

import "benchlead/diag/tree"

// clock adds up minutes on the bench: those of each test as often as it is
// taken, those of each piece of work, and the way to each point once. Points
// behind one cover share it: it comes off once, in the minutes of the first of
// them, and stays off.
type clock struct {
	system  *tree.System
	open    map[string]bool // points and covers
	minutes float64
}

func newClock(sys *tree.System) clock { return clock{system: sys, open: map[string]bool{}} }

func (c *clock) test(t *tree.Test) {
	c.minutes += t.Minutes
	for _, id := range [...]string{t.Red, t.Black} {
		c.point(id)
	}
}

func (c *clock) point(id string) {
	p := c.system.Point(id)
	if p == nil {
		return
	}
	way := "point " + p.ID
	if p.Cover != "" {
		way = "cover " + p.Cover
	}
	if !c.open[way] {
		c.open[way] = true
		c.minutes += p.Minutes
	}
}

func (c *clock) work(w *tree.Work) { c.minutes += w.Minutes }
