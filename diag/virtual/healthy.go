package virtual

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"benchlead/diag/circuit"
	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// The issues of CheckHealthy.
const (
	CodeHealthy source.Code = "healthy-disagrees"
	CodeMachine source.Code = "no-machine"
)

// How what trees call healthy is checked: so many machines without a fault, of
// which this share may lie outside. Where not one of the first few does, the rest
// aren't asked.
const (
	healthySeed     = 1
	healthyMachines = 200
	healthyFirst    = 50
	healthyOutside  = 0.05
)

// CheckHealthy compares what tests call healthy with simulated machines that have
// no fault: at the label's defaults, with each word that the label may say, and
// on a cold and a hot day. It reports each test at most once.
func CheckHealthy(lib *tree.Library) source.Issues {
	var issues source.Issues
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		sys := lib.Systems[id]
		if sys.Circuit == nil {
			continue
		}
		reported, waves := map[string]bool{}, map[waveKey]circuit.Wave{}
		for _, c := range conditionsOf(sys) {
			issues = append(issues, checkSystem(sys, c, reported, waves)...)
		}
	}
	return issues.Sorted()
}

// day is a set of conditions with how it is called.
type day struct {
	Conditions
	said string
}

// conditionsOf are the conditions under which a system is checked.
func conditionsOf(sys *tree.System) []day {
	const mild, cold, hot = 20, 5, 35 // degC
	days := []day{
		{Conditions{Celsius: mild}, "at 20 degC with the label's defaults"},
		{Conditions{Celsius: cold}, "at 5 degC"},
		{Conditions{Celsius: hot}, "at 35 degC"},
	}
	for _, f := range sys.Label {
		for _, word := range f.Options {
			if word != f.Word {
				days = append(days, day{Conditions{Celsius: mild, Words: map[string]string{f.ID: word}}, "with the label's " + f.ID + " " + word})
			}
		}
	}
	return days
}

// checkSystem is the issues of one day. Waves are kept from day to day: a charger
// is the same in the cold.
func checkSystem(sys *tree.System, at day, reported map[string]bool, waves map[waveKey]circuit.Wave) source.Issues {
	maker, err := NewMaker(sys, at.Conditions)
	var samples []*sample
	if err == nil {
		maker.waves = waves
		samples, err = maker.healthySamples(func(test string) bool { return reported[test] })
	}
	if err != nil {
		return source.Issues{{Code: CodeMachine, Place: sys.Circuit.Place, Message: "no healthy machine can be built " + at.said + ": " + err.Error()}}
	}
	var issues source.Issues
	for _, s := range samples {
		if s.outside() <= healthyOutside {
			continue
		}
		reported[s.test.ID] = true
		issues = append(issues, s.issue(at.said))
	}
	return issues
}

// sample is what healthy machines read in one test.
type sample struct {
	test      *tree.Test
	low, high float64   // what the test calls healthy
	values    []float64 // of the machines; NaN for a display that never settles
}

// healthySamples are the readings of machines without a fault, in the order of the
// system's tests. Tests that the circuit doesn't answer are left out, and those
// to skip.
func (m *Maker) healthySamples(skip func(test string) bool) ([]*sample, error) {
	var samples []*sample
	for _, test := range m.sys.Tests {
		if test.Healthy == nil || test.Kind == tree.Observed || skip(test.ID) {
			continue
		}
		if low, high, err := test.Healthy.Limits(m.base); err == nil {
			samples = append(samples, &sample{test: test, low: low, high: high})
		}
	}
	for number := 0; number < healthyMachines && len(samples) > 0; number++ {
		machine, err := m.Build(Draw{Seed: healthySeed, Number: number})
		if err != nil {
			return nil, err
		}
		if samples, err = machine.sampled(samples); err != nil {
			return nil, fmt.Errorf("machine %d: %w", number, err)
		}
		if number == healthyFirst-1 {
			samples = slices.DeleteFunc(samples, func(s *sample) bool { return s.outside() == 0 })
		}
	}
	return samples, nil
}

// sampled adds a machine's readings, and leaves out what it doesn't answer.
func (m *Machine) sampled(samples []*sample) ([]*sample, error) {
	kept := samples[:0]
	for _, s := range samples {
		v, err := m.worth(s.test)
		var cant *Unanswered
		if errors.As(err, &cant) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("test %s: %w", s.test.ID, err)
		}
		s.values = append(s.values, v)
		kept = append(kept, s)
	}
	return kept, nil
}

// worth is the value of a metered test, or of one that is worked out from the
// others; NaN for a display that never settles.
func (m *Machine) worth(test *tree.Test) (float64, error) {
	if test.Kind != tree.Worked {
		a, err := m.Answer(test)
		if a.Flicker {
			return math.NaN(), err
		}
		return a.Value, err
	}
	known := formula.Values{Numbers: maps.Clone(m.maker.base.Numbers), Words: m.maker.base.Words}
	for _, id := range test.Inputs() {
		input := m.maker.sys.Test(id)
		if input == nil || input.Kind == tree.Observed {
			return 0, &Unanswered{test.ID, "it is worked out from " + id + ", which has no figure"}
		}
		v, err := m.worth(input)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return math.NaN(), err
		}
		known.Numbers[id] = v
	}
	v, err := test.FromValue(known)
	var none *formula.NotFinite
	if errors.As(err, &none) {
		return math.NaN(), nil
	}
	return v, err
}

// outside is the share of machines that read otherwise than the test says.
func (s *sample) outside() float64 {
	n := 0
	for _, v := range s.values {
		if !(v >= s.low-dust(s.low) && v <= s.high+dust(s.high)) {
			n++
		}
	}
	return float64(n) / float64(len(s.values))
}

// dust is what arithmetic may lose at a limit.
func dust(limit float64) float64 { return 1e-9 + 1e-6*math.Abs(limit) }

// reach is from where to where the middle 95 % of the machines read; those that
// never settle don't count.
func (s *sample) reach() (low, high float64, settled bool) {
	values := slices.DeleteFunc(slices.Clone(s.values), math.IsNaN)
	if len(values) == 0 {
		return 0, 0, false
	}
	slices.SortFunc(values, cmp.Compare)
	at := func(share float64) float64 { return values[int(math.Round(share*float64(len(values)-1)))] }
	const tail = 0.025
	return at(tail), at(1 - tail), true
}

func (s *sample) issue(said string) source.Issue {
	i := source.Issue{Code: CodeHealthy, Place: placeOf(s.test)}
	says := s.span(s.low, s.high)
	low, high, settled := s.reach()
	if !settled {
		i.Message = fmt.Sprintf("%q calls %s healthy; no machine without a fault gives a steady reading %s", s.test.ID, says, said)
		i.Hint = "look at what the circuit does in state " + s.test.State
		return i
	}
	i.Message = fmt.Sprintf("%q calls %s healthy; %.0f %% of machines without a fault read otherwise %s: the middle 95 %% read %s",
		s.test.ID, says, 100*s.outside(), said, s.span(low, high))
	i.Hint = "correct healthy here, or the parts and values of the circuit behind it"
	return i
}

// span writes limits in the unit of the test.
func (s *sample) span(low, high float64) string {
	from, to := s.write(low), s.write(high)
	switch {
	case math.IsInf(low, -1):
		return "up to " + to
	case math.IsInf(high, 1) && !math.IsInf(low, 1):
		return "from " + from
	}
	return from + " to " + to
}

func (s *sample) write(v float64) string { return measure.Format(v, s.test.Unit, s.test.PerUnit, 0) }

// placeOf is where the test says what is healthy.
func placeOf(test *tree.Test) source.Place {
	for _, f := range []*formula.Formula{test.Healthy.From, test.Healthy.To} {
		if f != nil && len(f.Origin().Lines) > 0 {
			return f.Origin().Lines[0]
		}
	}
	return test.Place
}
