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
}

// Exact says whether what is named is all that is wrong, and nothing else.
func (o Outcome) Exact() bool { return slices.Equal(o.Named.Faults, o.Faults) }

// Comeback says whether something that is wrong was not named: the machine comes
// back.
func (o Outcome) Comeback() bool {
	return slices.ContainsFunc(o.Faults, func(f string) bool { return !o.Named.Has(f) })
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
	access, taken := benchtime.New(sys), map[string]bool{}
	for range mostTests {
		w := cloud.Weigh(out.Taken)
		if out.Named, out.Sure = w.Named(); out.Sure {
			return out, nil
		}
		offers := w.Next(access, taken)
		if len(offers) == 0 {
			return out, nil
		}
		test := offers[0].Test
		out.Minutes += access.Take(test)
		taken[test.ID] = true
		a, err := m.Take(test, prove.Hand{Meter: o.Meter, Slip: o.Slip})
		if err != nil {
			return out, fmt.Errorf("%s, machine %d: %w", c.Name(), c.Draw.Number, err)
		}
		out.Taken = append(out.Taken, suspect.Reading{Test: test.ID, Answer: answer(a, o.Meter)})
	}
	return out, nil
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

// Clouds are those of every complaint of a system, at the usual label and on a
// bench of prove.Celsius.
func Clouds(sys *tree.System, o suspect.Options) (map[string]*suspect.Cloud, error) {
	maker, err := virtual.NewMaker(sys, virtual.Conditions{Celsius: prove.Celsius})
	if err != nil {
		return nil, err
	}
	return suspect.BuildAll(maker, o)
}
