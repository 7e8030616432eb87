package decide

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// World is a sort of cases and a hand, with what must come of them.
type World struct {
	ID         string // one word
	Says       string
	Kind       Kind
	Slip, Wide float64
	// LeastExact is the share of cases in which just what is wrong must be named, and
	// MostBack the share that may come back; 0: no limit. The figures are those of a
	// study on simulated machines of one system, less what chance makes of so few.
	LeastExact, MostBack float64
}

// Worlds are those that are proved.
var Worlds = []World{
	{ID: "one-fault", Says: "one fault, 1 % slips", Kind: Single, Slip: 0.01, LeastExact: 0.96},
	{ID: "one-fault-slips-5", Says: "one fault, 5 % slips", Kind: Single, Slip: 0.05, LeastExact: 0.93},
	{ID: "two-faults", Says: "two that come together", Kind: Double, Slip: 0.01, LeastExact: 0.85},
	{ID: "battery-and-charging", Says: "battery and charging", Kind: Trap, Slip: 0.01, MostBack: 0.08},
	{ID: "one-fault-wide-1.8", Says: "one fault, 1.8 times wider", Kind: Single, Slip: 0.01, Wide: 1.8, LeastExact: 0.92},
}

// sureAt is how likely the first suspect must be to count as sure in the figures.
const sureAt = 0.95

// mostSureWrong is the share of what was named for sure that may be wrong, where
// machines are as the circuit says.
const mostSureWrong = 0.02

// Row is what came of the cases of one world in one system.
type Row struct {
	System string
	World
	Cases, Exact, Back int
	Sure, SureWrong    int // with a first suspect of sureAt or more, and of these not exact
	Tests              int // taken in all
	Minutes            float64
	Astray             []Outcome // cases that are not exact
}

// Setting says how hard the suspects are proved.
type Setting struct {
	Machines int    // of each hypothesis in the clouds
	Cases    int    // of each world, about
	Seed     uint64 // of the clouds; the cases are drawn from the next one
}

// Prove tries the suspects of one system in every world. The system must have a
// circuit.
func Prove(lib *tree.Library, sys *tree.System, s Setting) ([]Row, error) {
	b, err := newBench(lib, sys, s)
	if err != nil {
		return nil, err
	}
	var out []Row
	for _, w := range Worlds {
		o := b.options
		o.Slip, o.Wide = w.Slip, w.Wide
		kind := w.Kind.of(sys)
		if len(kind) == 0 {
			continue // nothing in this system is of that kind: a magneto stores no charge, so it has no trap
		}
		all, err := coming(b.maker, sys, kind, o, s.Cases)
		if err != nil {
			return nil, err
		}
		row := Row{System: sys.ID, World: w}
		for _, c := range all {
			cloud, err := b.clouds.of(c.Complaint)
			if err != nil {
				return nil, fmt.Errorf("%s, machine %d: %w", c.Name(), c.Draw.Number, err)
			}
			is, err := Solve(c, cloud, sys, b.maker, o)
			if err != nil {
				return nil, err
			}
			is.Goes = goes(lib, sys, is.Named.Faults)
			row.add(is)
		}
		out = append(out, row)
	}
	return out, nil
}

func (r *Row) add(o Outcome) {
	r.Cases++
	r.Tests += len(o.Taken)
	r.Minutes += o.Minutes
	if o.Comeback() {
		r.Back++
	}
	sure := o.Named.P >= sureAt
	if sure {
		r.Sure++
	}
	if o.Exact() {
		r.Exact++
		return
	}
	if sure {
		r.SureWrong++
	}
	r.Astray = append(r.Astray, o)
}

// Fails says which figures do not hold; empty when all do.
func (r Row) Fails() string {
	var out []string
	if part(r.Exact, r.Cases) < r.LeastExact {
		out = append(out, fmt.Sprintf("exact in %.1f %%, and should be in %.0f", 100*part(r.Exact, r.Cases), 100*r.LeastExact))
	}
	if r.MostBack > 0 && part(r.Back, r.Cases) > r.MostBack {
		out = append(out, fmt.Sprintf("%.1f %% come back, and at most %.0f may", 100*part(r.Back, r.Cases), 100*r.MostBack))
	}
	if r.Kind == Single && r.Wide == 0 && r.Slip <= 0.01 && part(r.SureWrong, r.Sure) > mostSureWrong {
		out = append(out, fmt.Sprintf("%.1f %% of what was named for sure is wrong, and at most %.0f may be", 100*part(r.SureWrong, r.Sure), 100*mostSureWrong))
	}
	return strings.Join(out, "; ")
}

func part(n, of int) float64 { return float64(n) / float64(cmp.Or(of, 1)) }

// Text writes the rows for people, with some of the cases that went astray.
func Text(w io.Writer, rows []Row) error {
	const shownAstray = 3
	var err error
	line := func(format string, args ...any) {
		if err == nil {
			_, err = fmt.Fprintf(w, format+"\n", args...)
		}
	}
	line("%-20s %-28s %6s %7s %7s %7s %7s %6s %5s", "system", "cases", "n", "exact", "back", "sure", "wrong", "tests", "min")
	for _, r := range rows {
		n := float64(cmp.Or(r.Cases, 1))
		line("%-20s %-28s %6d %5.1f %% %5.1f %% %5.1f %% %5.1f %% %6.1f %5.0f", r.System, r.Says, r.Cases,
			100*part(r.Exact, r.Cases), 100*part(r.Back, r.Cases), 100*part(r.Sure, r.Cases), 100*part(r.SureWrong, r.Sure),
			float64(r.Tests)/n, r.Minutes/n)
	}
	line("")
	for _, r := range rows {
		if says := r.Fails(); says != "" {
			line("FAILS: %s, %s: %s", r.System, r.Says, says)
			for _, o := range r.Astray[:min(len(r.Astray), shownAstray)] {
				line("    %s, machine %d, %s: named %s (%.0f %%) after %s", o.Name(), o.Draw.Number, o.Complaint, o.Named.Name(), 100*o.Named.P, o.way())
			}
		}
	}
	return err
}

// way is the tests taken, with their answers.
func (o Outcome) way() string {
	var out []string
	for _, r := range o.Taken {
		says := r.Choice
		switch r.Kind {
		case suspect.Number:
			says = fmt.Sprintf("%.4g", r.Value)
		case suspect.Over:
			says = "OL"
		case suspect.Flicker:
			says = "flickers"
		case suspect.None:
			says = "no answer"
		}
		if r.Stage != "" {
			says += " (" + r.Stage + ")"
		}
		out = append(out, r.Test+" "+says)
	}
	return strings.Join(out, ", ")
}
