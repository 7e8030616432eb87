// Package benchtime says what a test costs on the bench: its own minutes, and the
// way to the points that its leads touch, which is paid for once. Points behind one
// cover share it: it comes off once and stays off.
package benchtime

import "benchlead/diag/tree"

// Access is what can be reached already on one machine.
type Access struct {
	system *tree.System
	open   map[string]bool // points and covers
}

// New is a machine as it comes in: nothing is off.
func New(sys *tree.System) *Access { return &Access{system: sys, open: map[string]bool{}} }

// Minutes is what a test would cost now.
func (a *Access) Minutes(t *tree.Test) float64 {
	minutes := t.Minutes
	for _, w := range a.ways(t) {
		minutes += w.minutes
	}
	return minutes
}

// Take is what a test costs; what it opens stays open.
func (a *Access) Take(t *tree.Test) float64 {
	minutes := a.Minutes(t)
	for _, w := range a.ways(t) {
		a.open[w.name] = true
	}
	return minutes
}

// way is the cover of a point, or the point itself, and the minutes to it.
type way struct {
	name    string
	minutes float64
}

// ways are those of a test that are not open yet, each once.
func (a *Access) ways(t *tree.Test) []way {
	var out []way
	for _, id := range [...]string{t.Red, t.Black} {
		p := a.system.Point(id)
		if p == nil {
			continue
		}
		w := way{"point " + p.ID, p.Minutes}
		if p.Cover != "" {
			w.name = "cover " + p.Cover
		}
		if !a.open[w.name] && (len(out) == 0 || out[0].name != w.name) {
			out = append(out, w)
		}
	}
	return out
}
