package decide

import (
	"fmt"
	"slices"

	"benchlead/diag/benchtime"
	"benchlead/diag/measure"
	"benchlead/diag/prove"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Options say which cases are tried.
type Options struct {
	Seed  uint64  // of the cases; that of the clouds is another
	Slip  float64 // share of answers that are chance
	Wide  float64 // how many times as much machines differ as the circuit says; 0: as much
	Meter measure.Meter
}

// Outcome is what came of one case.
type Outcome struct {
	Case
	Named   suspect.Suspect
	Sure    bool // it was sure; else nothing was left to ask
	Minutes float64
	Taken   []suspect.Reading // in order
	// Came is what was wrong when it came in, with what the faults that were put in
	// brought about (a fuse blown by a chafed wire, a pack that has shut off). Left is
	// what is wrong at the end: charging wakes a pack.
	Came, Left []string
	// Goes is what goes with the repair of what is named.
	Goes []string
}

// Exact says whether all that is still wrong of what was put in is named, and
// nothing that was never wrong.
func (o Outcome) Exact() bool {
	return !o.Comeback() && !slices.ContainsFunc(o.Named.Faults, func(f string) bool {
		return !slices.Contains(o.Faults, f) && !slices.Contains(o.Came, f)
	})
}

// Comeback says whether something that was put in, and is still wrong, was not named
// and does not go with the repair of what was: the machine comes back.
func (o Outcome) Comeback() bool {
	return slices.ContainsFunc(o.Faults, func(f string) bool {
		return slices.Contains(o.Left, f) && !o.Named.Has(f) && !slices.Contains(o.Goes, f)
	})
}

// goes is what goes with the repair of what is named: another fault of the same part,
// where one repair clears both. Empty cells and a protection that has shut off are
// both gone with the pack.
func goes(lib *tree.Library, sys *tree.System, named []string) []string {
	var out []string
	for _, f := range named {
		for _, r := range lib.Repairs {
			if !slices.Contains(r.Systems, sys.ID) || !slices.Contains(r.Clears, f) {
				continue
			}
			for _, g := range r.Clears {
				if other := sys.Fault(g); other != nil && other.Part == sys.Fault(f).Part && !slices.Contains(named, g) && !slices.Contains(out, g) {
					out = append(out, g)
				}
			}
		}
	}
	slices.Sort(out)
	return out
}

// mostTests is how many tests are taken before one gives up.
const mostTests = 40

// Solve takes a case to the point where the suspects name what is wrong, or where
// no test tells any more.
func Solve(c Case, cloud *suspect.Cloud, sys *tree.System, maker prove.Maker, o Options) (Outcome, error) {
	out := Outcome{Case: c}
	m, err := maker.Build(c.Draw)
	if err != nil {
		return out, err
	}
	if out.Came, err = m.Present(); err != nil {
		return out, err
	}
	out, err = solve(out, m, cloud, sys, o)
	if err == nil {
		out.Left, err = m.Present()
	}
	return out, err
}

// solve asks for the best test until the suspects are sure, or nothing is left.
func solve(out Outcome, m prove.Machine, cloud *suspect.Cloud, sys *tree.System, o Options) (Outcome, error) {
	at := suspect.At{Access: benchtime.New(sys), Taken: map[suspect.Key]bool{}}
	for range mostTests {
		w := cloud.Weigh(out.Taken)
		if out.Named, out.Sure = w.Named(); out.Sure {
			return out, nil
		}
		at.Heed(sys, out.Taken)
		offers := w.Next(at)
		if len(offers) == 0 {
			return out, nil
		}
		best := offers[0]
		if best.After != nil {
			if err := do(m, best.After); err != nil {
				return out, fmt.Errorf("%s, machine %d: %w", out.Name(), out.Draw.Number, err)
			}
			at.Stage = best.After.ID
		}
		out.Minutes += best.Minutes
		at.Access.Take(best.Test)
		key := suspect.Key{Stage: at.Stage, Test: best.Test.ID}
		at.Taken[key] = true
		a, err := m.Take(best.Test, prove.Hand{Meter: o.Meter, Slip: o.Slip, Again: again(out.Taken, best.Test.ID)})
		if err != nil {
			return out, fmt.Errorf("%s, machine %d: %w", out.Name(), out.Draw.Number, err)
		}
		out.Taken = append(out.Taken, suspect.Reading{Key: key, Answer: answer(a, o.Meter)})
	}
	return out, nil
}

// do is the work of a stage.
func do(m prove.Machine, stage *tree.Stage) error {
	for _, work := range stage.Work {
		if err := m.Do(work); err != nil {
			return err
		}
	}
	return nil
}

// again is how often a test was taken before.
func again(taken []suspect.Reading, test string) int {
	n := 0
	for _, r := range taken {
		if r.Test == test {
			n++
		}
	}
	return n
}

// answer is a reading as the suspects take it.
func answer(a prove.Answer, meter measure.Meter) suspect.Answer {
	switch {
	case a.Choice != "":
		return suspect.Answer{Kind: suspect.Seen, Choice: a.Choice}
	case a.Reading == nil:
		return suspect.Answer{}
	}
	return suspect.Of(*a.Reading, meter)
}

// clouds are those of every complaint of a system, made when they are asked for, at
// the usual label and on a bench of prove.Celsius.
type clouds struct {
	maker   *virtual.Maker
	options suspect.Options
	made    map[string]*suspect.Cloud
}

func newClouds(sys *tree.System, o suspect.Options) (*clouds, error) {
	maker, err := virtual.NewMaker(sys, virtual.Conditions{Celsius: prove.Celsius})
	return &clouds{maker: maker, options: o, made: map[string]*suspect.Cloud{}}, err
}

// of are the machines that come in with a complaint.
func (c *clouds) of(complaint string) (*suspect.Cloud, error) {
	if made := c.made[complaint]; made != nil {
		return made, nil
	}
	cloud, err := suspect.Build(c.maker, complaint, c.options)
	if err == nil {
		cloud, err = cloud.Extend(c.maker, c.options)
	}
	if err == nil {
		c.made[complaint] = cloud
	}
	return cloud, err
}
