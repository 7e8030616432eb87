package prove

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"benchlead/diag/tree"
)

// Report is what came of all units.
type Report struct {
	Options Options
	Trees   []TreeReport
	Totals  Counts // of the faults that the trees judge, and of what they say wrong of others
	// Machines is all that were walked, those of faults that a tree doesn't judge
	// too.
	Machines int
	Bare     []string // systems without a circuit
	Systems  []SystemReport
}

// SystemReport is what a system's circuit can't show.
type SystemReport struct {
	System     string
	Unmodelled []tree.Unmodelled
}

// TreeReport is what came of one tree in one system.
type TreeReport struct {
	Tree, System string
	Title        string
	Faults       []FaultReport // judged ones, and others of which it says something wrong
	Quiet        []FaultReport // other faults of which it says nothing wrong
	Hidden       []string      // faults that it judges, and that never come in with a complaint that leads to it
	Steps        int
	Unreached    []Step
	Mean, Most   float64 // minutes to the verdict: on average, and for 95 of 100 machines
	Came, Tried  int     // machines that came in with such a complaint, of those built
}

// Step is a step of a tree and where it stands.
type Step struct {
	ID    string
	Place string
}

// FaultReport is what came of one fault, or of several at once.
type FaultReport struct {
	Fault   string // "a + b" for several; "no fault" for a healthy machine
	Kind    Kind
	Counts  Counts
	Tried   int
	Mended  int
	AtOnce  int
	Minutes float64 // on average
	Left    float64 // faults neither found nor cleared, on average
	Alike   []string
	Misses  []Miss
	Failed  string
}

// Sum puts results together. They must be in the order of the plan's units.
func (p *Plan) Sum(results []Result) Report {
	out := Report{Options: p.options}
	reached := map[string]bool{}
	for _, r := range results {
		for step := range r.Reached {
			reached[step] = true
		}
	}
	for _, t := range p.trees {
		for _, system := range t.Systems {
			sys := p.lib.Systems[system]
			switch {
			case sys == nil:
			case sys.Circuit == nil:
				if !slices.Contains(out.Bare, system) {
					out.Bare = append(out.Bare, system)
				}
			default:
				out.add(sumTree(t, sys, results, reached))
				out.describe(sys)
			}
		}
	}
	return out
}

func (r *Report) add(t TreeReport) {
	r.Trees = append(r.Trees, t)
	r.Machines += t.Came
	for _, f := range t.Faults {
		r.Totals.plus(f.Counts)
	}
}

func (r *Report) describe(sys *tree.System) {
	if !slices.ContainsFunc(r.Systems, func(s SystemReport) bool { return s.System == sys.ID }) {
		r.Systems = append(r.Systems, SystemReport{System: sys.ID, Unmodelled: sys.Circuit.Unmodelled})
	}
}

func sumTree(t *tree.Tree, sys *tree.System, results []Result, reached map[string]bool) TreeReport {
	out := TreeReport{Tree: t.ID, System: sys.ID, Title: t.Title, Steps: len(t.Steps)}
	var minutes []float64
	for _, r := range results {
		if r.Unit.Tree != t.ID || r.Unit.System != sys.ID {
			continue
		}
		out.Came += r.Counts.Draws
		out.Tried += r.Tried
		switch {
		case r.Unit.Kind == Other && r.Counts.Wrong == 0 && r.Failed == "":
			out.Quiet = append(out.Quiet, faultReport(r))
		case r.Counts.Draws == 0 && r.Failed == "":
			out.Hidden = append(out.Hidden, name(r.Unit))
		default:
			out.Faults = append(out.Faults, faultReport(r))
		}
		if r.Unit.Kind != Other {
			minutes = append(minutes, r.Minutes...)
		}
	}
	out.Mean, out.Most = mean(minutes), most(minutes)
	for _, s := range t.Steps {
		// A machine that is stopped for is none that the circuit makes.
		if !reached[key(t.ID, s.ID)] && s.Kind != tree.Stop {
			out.Unreached = append(out.Unreached, Step{ID: s.ID, Place: at(s.Place)})
		}
	}
	return out
}

func faultReport(r Result) FaultReport {
	return FaultReport{
		Fault: name(r.Unit), Kind: r.Unit.Kind, Counts: r.Counts, Tried: r.Tried, Mended: r.Mended, AtOnce: r.AtOnce,
		Minutes: mean(r.Minutes), Left: mean(r.Left), Alike: r.Alike, Misses: r.Misses, Failed: r.Failed,
	}
}

// name is what a unit's faults are called.
func name(u Unit) string {
	if len(u.Faults) == 0 {
		return "no fault"
	}
	return strings.Join(u.Faults, " + ")
}

func mean(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	var sum float64
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// most is what 95 of 100 values don't exceed.
func most(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Sorted(slices.Values(v))
	const share = 0.95
	return v[int(math.Ceil(share*float64(len(v))))-1]
}

// The shares of machines that may be left for a reading too close to a limit: of
// all, and of one fault.
const (
	mostClose    = 0.02
	mostCloseOne = 0.05
)

// Holds says whether nothing is wrong or missed, no single fault is left behind
// another, few readings are too close to call, and every unit could be run.
func (r Report) Holds() bool {
	if len(r.Bare) > 0 {
		return false // what has no circuit is not proved
	}
	if r.single() && float64(r.Totals.Close) > mostClose*float64(r.Totals.Draws) {
		return false
	}
	for _, t := range r.Trees {
		for _, f := range t.Faults {
			if r.fails(f) {
				return false
			}
		}
	}
	return true
}

// single says whether the proof is of one fault at a time, by a sure hand that can
// take every test.
func (r Report) single() bool {
	return !r.Options.Pairs && r.Options.Slip == 0 && r.Options.Untaken == 0
}

func (r Report) fails(f FaultReport) bool { return !f.holds() || r.single() && f.oftenClose() }

// oftenClose says whether one fault is left so more often than may be. One machine
// of a few is chance.
func (f FaultReport) oftenClose() bool {
	return f.Counts.Close > 1 && float64(f.Counts.Close) > mostCloseOne*float64(f.Counts.Draws)
}

func (f FaultReport) holds() bool {
	left := f.Counts.Missed
	if f.Kind == Judged {
		left += f.Counts.Masked
	}
	return f.Counts.Wrong == 0 && left == 0 && f.Failed == ""
}

// Fails says in a few words why a report does not hold.
func (r Report) Fails() string {
	out := fmt.Sprintf("%d missed, %d wrong", r.Totals.Missed, r.Totals.Wrong)
	if len(r.Bare) > 0 {
		out += fmt.Sprintf(", %d systems without a circuit", len(r.Bare))
	}
	if !r.Options.Pairs && r.Totals.Masked > 0 {
		out += fmt.Sprintf(", %d left behind another fault", r.Totals.Masked)
	}
	if !r.Options.Pairs && r.Totals.Close > 0 {
		out += fmt.Sprintf(", %d too close to call (%.1f %%; at most %g %% of one fault may be, and %g %% in all)", r.Totals.Close, percent(r.Totals.Close, r.Totals.Draws), 100*mostCloseOne, 100*mostClose)
	}
	return out
}
