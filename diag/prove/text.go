package prove

import (
	"fmt"
	"io"
	"strings"

	"benchlead/diag/source"
)

// page writes lines and remembers the first error.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.w, strings.TrimRight(source.CleanLine(fmt.Sprintf(format, args...)), " "))
	}
}

// Text writes the report for people.
func Text(w io.Writer, r Report) error {
	p := &page{w: w}
	for _, t := range r.Trees {
		p.tree(t)
	}
	for _, s := range r.Systems {
		p.unmodelled(s)
	}
	for _, s := range r.Bare {
		p.line("%s has no circuit: its trees are not proved.", s)
	}
	p.totals(r)
	return p.err
}

func (p *page) tree(t TreeReport) {
	p.line("%s (%s): %s", t.Tree, t.System, t.Title)
	p.table(t)
	if n := len(t.Quiet); n > 0 {
		p.line("  says nothing wrong of %d other faults", n)
	}
	if len(t.Hidden) > 0 {
		p.line("  never come in with a complaint that leads here: %s", strings.Join(t.Hidden, ", "))
	}
	if t.Tried > 0 {
		p.line("  to the verdict %.0f min on average, %.0f min for 95 of 100; %d machines of %d came in with such a complaint", t.Mean, t.Most, t.Came, t.Tried)
	}
	p.line("")
	for _, f := range t.Faults {
		p.misses(t, f)
	}
	if len(t.Unreached) > 0 {
		p.line("  %d of %d steps never reached:", len(t.Unreached), t.Steps)
		for _, s := range t.Unreached {
			p.line("    %s (%s)", s.ID, s.Place)
		}
		p.line("")
	}
}

func (p *page) table(t TreeReport) {
	wide, held := len("fault"), 0
	for _, f := range t.Faults {
		wide = max(wide, len(f.Fault))
	}
	p.line("  %-*s  %6s %6s %6s %6s %6s %6s %6s %6s %6s %7s", wide, "fault", "draws", "found", "group", "close", "masked", "missed", "wrong", "min", "left", "came in")
	for _, f := range t.Faults {
		c := f.Counts
		if (f.Kind == Pair || f.Kind == Bypass) && f.holds() {
			held++
			continue
		}
		note := ""
		switch {
		case f.Failed != "":
			note = "  could not be run: " + f.Failed
		case f.Kind == Other:
			note = "  (not judged here)"
		case f.Mended > 0:
			note = fmt.Sprintf("  (%d put right by the walk's own work)", f.Mended)
		}
		if len(f.Alike) > 0 {
			note += "  can't be told from " + strings.Join(f.Alike, ", ")
		}
		p.line("  %-*s  %6d %6d %6d %6d %6d %6d %6d %6.0f %6.1f %5.0f %%%s", wide, f.Fault,
			c.Draws, c.Found, c.Group, c.Close, c.Masked, c.Missed, c.Wrong, f.Minutes, f.Left, percent(c.Draws, f.Tried), note)
	}
	if held > 0 {
		p.line("  %d more pairs: both found, or the second left and said to be", held)
	}
	p.both(t)
}

// both says of pairs how often both faults were found, and when.
func (p *page) both(t TreeReport) {
	var draws, found, once int
	for _, f := range t.Faults {
		if f.Kind == Pair || f.Kind == Bypass {
			draws, found, once = draws+f.Counts.Draws, found+f.Counts.Found, once+f.AtOnce
		}
	}
	if draws > 0 {
		p.line("  both found in %.0f %% of %d machines, in %.0f %% before anything was repaired", percent(found, draws), draws, percent(once, draws))
	}
}

func percent(part, whole int) float64 {
	if whole == 0 {
		return 0
	}
	return 100 * float64(part) / float64(whole)
}

func (p *page) misses(t TreeReport, f FaultReport) {
	for _, m := range f.Misses {
		p.line("  %s: %s, %s, %d of %d machines", strings.ToUpper(string(m.Class)), t.Tree, f.Fault, m.Count, f.Counts.Draws)
		tr := m.Trace
		p.line("    machine %d, complaint %s; %s", tr.Machine, tr.Complaint, strings.Join(append(tr.Ways, tr.Values...), "; "))
		for i, l := range tr.Lines {
			p.line("    %3d  %s", i+1, l)
		}
		found := "nothing"
		if len(tr.Found) > 0 {
			found = strings.Join(tr.Found, ", ")
		}
		p.line("    found: %s", found)
		if len(tr.Slips) > 0 {
			p.line("    slips: %s", strings.Join(tr.Slips, ", "))
		}
		for _, why := range tr.Why {
			p.line("    - %s", why)
		}
		p.line("")
	}
}

func (p *page) unmodelled(s SystemReport) {
	if len(s.Unmodelled) == 0 {
		return
	}
	p.line("What the circuit of %s does not show:", s.System)
	for _, u := range s.Unmodelled {
		p.line("  %s: %s (%s)", u.What, u.Why, at(u.Place))
	}
	p.line("")
}

func (p *page) totals(r Report) {
	c := r.Totals
	for _, t := range r.Trees {
		for _, f := range t.Faults {
			if r.fails(f) {
				p.line("fails: %s (%s), %s: %d missed, %d wrong, %d left behind another fault, %d too close, of %d",
					t.Tree, t.System, f.Fault, f.Counts.Missed, f.Counts.Wrong, f.Counts.Masked, f.Counts.Close, f.Counts.Draws)
			}
		}
	}
	p.line("%d machines walked; of the %d with a fault that the tree judges: %d found, %d in a group, %d close, %d masked, %d missed, %d wrong.",
		r.Machines, c.Draws, c.Found, c.Group, c.Close, c.Masked, c.Missed, c.Wrong)
}
