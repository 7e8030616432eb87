package walk

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// judge works out the result of every test of one system, inputs before the
// tests worked out from them.
type judge struct {
	system  *tree.System
	facts   job.Facts
	values  formula.Values
	results map[string]Result
}

// Results judges every test of the system by the facts: by id.
func Results(sys *tree.System, facts job.Facts) map[string]Result {
	values, _ := Values(sys, *facts.Intake)
	j := &judge{system: sys, facts: facts, values: values, results: map[string]Result{}}
	for _, test := range sys.Tests {
		j.result(test)
	}
	return j.results
}

func (j *judge) result(test *tree.Test) Result {
	if r, ok := j.results[test.ID]; ok {
		return r
	}
	// A test that needs itself can't be worked out; the loader refuses it, and
	// this keeps a damaged library from looping.
	j.results[test.ID] = Result{Test: test, Mark: Unknown}
	var r Result
	if test.Kind == tree.Worked {
		r = j.worked(test)
	} else {
		r = j.answered(test)
	}
	r.Test = test
	if r.Mark == Read && !r.Mute() {
		r = j.spread(r)
	}
	j.results[test.ID] = r
	return r
}

// answered takes the answers of the current epoch: the last one decides the
// kind, and readings that agree with it are averaged.
func (j *judge) answered(test *tree.Test) Result {
	answers := j.facts.Current(test.ID)
	if len(answers) == 0 {
		return Result{Mark: Unknown}
	}
	last := answers[len(answers)-1]
	switch {
	case last.Seen != nil:
		return Result{Mark: Seen, Seq: last.Seq, Choice: last.Seen.Choice, Count: 1}
	case last.Cant != nil:
		return Result{Mark: Passed, Seq: last.Seq, Why: last.Cant.Why}
	case last.Read == nil:
		return Result{Mark: Unknown}
	case last.Read.Reading.Kind == measure.Flicker:
		return Result{Mark: Read, Seq: last.Seq, Flicker: true, Count: 1}
	}
	return j.average(test, answers)
}

func (j *judge) average(test *tree.Test, answers []job.Answer) Result {
	last := answers[len(answers)-1]
	meter, celsius := j.facts.Intake.Meter, j.facts.Intake.Celsius
	if last.Read.Reading.Kind == measure.OverRange && !Endless(test.Function) {
		return Result{Mark: Read, Seq: last.Seq, Over: true, Count: 1}
	}
	latest, err := meter.Estimate(last.Read.Reading, celsius)
	if err != nil {
		return Result{Mark: Passed, Seq: last.Seq, Why: err.Error()}
	}
	r := Result{Mark: Read, Seq: last.Seq, Count: 1, Estimate: latest}
	alike := []measure.Estimate{latest}
	for i := len(answers) - 2; i >= 0 && answers[i].Read != nil; i-- {
		if answers[i].Read.Reading.Kind == measure.Flicker {
			r.Astray = true
			break
		}
		earlier, err := meter.Estimate(answers[i].Read.Reading, celsius)
		if err != nil || !agree(earlier, latest) {
			r.Astray = true
			break
		}
		alike = append(alike, earlier)
	}
	if len(alike) > 1 {
		r.Estimate, r.Count = measure.Average(alike), len(alike)
	}
	return r
}

// Endless says whether over range is an answer on this function: an open
// circuit in ohms, a blocked diode. On volts or amps it only means that the
// range was too low or a lead was off.
func Endless(f measure.Function) bool {
	return f == measure.Ohms || f == measure.Continuity || f == measure.DiodeTest
}

// agree says whether two readings of one test may be the same value: within
// two standard uncertainties of their difference (95 %), in which the gain
// error of a shared scale cancels.
func agree(a, b measure.Estimate) bool {
	if math.IsInf(a.Value, 0) || math.IsInf(b.Value, 0) {
		return a.Value == b.Value
	}
	apart := measure.Combine(a.Value-b.Value, []measure.Estimate{a, b}, []float64{1, -1})
	return math.Abs(apart.Value) <= 2*apart.U()
}

// worked computes a test from its inputs, with their uncertainty.
func (j *judge) worked(test *tree.Test) Result {
	r := Result{Mark: Read, Count: 1}
	values, inputs, parts := withNumbers(j.values), []string{}, []measure.Estimate{}
	for _, name := range test.From.Needs() {
		input := j.system.Test(name)
		if input == nil {
			continue
		}
		in := j.result(input)
		r.Seq = max(r.Seq, in.Seq)
		switch {
		case in.Mark == Unknown:
			r.Lacks = append(r.Lacks, name)
		case in.Mark != Read || in.Mute() || math.IsInf(in.Estimate.Value, 0):
			r.Why = fmt.Sprintf("it needs a number from %s", input.Title)
		default:
			values.Numbers[name] = in.Estimate.Value
			inputs, parts = append(inputs, name), append(parts, in.Estimate)
		}
	}
	switch {
	case r.Why != "":
		return Result{Mark: Passed, Seq: r.Seq, Why: r.Why}
	case len(r.Lacks) > 0:
		return Result{Mark: Unknown, Lacks: j.open(r.Lacks)}
	}
	return propagate(test, r, values, inputs, parts)
}

// open replaces worked-out tests among lacks by the answers they wait for.
func (j *judge) open(lacks []string) []string {
	var out []string
	for _, id := range lacks {
		if r := j.results[id]; r.Test != nil && r.Test.Kind == tree.Worked {
			out = append(out, r.Lacks...)
			continue
		}
		out = append(out, id)
	}
	return out
}

func propagate(test *tree.Test, r Result, values formula.Values, inputs []string, parts []measure.Estimate) Result {
	value, err := test.FromValue(values)
	if err == nil {
		var slopes []float64
		if slopes, err = test.FromSlopes(values, inputs); err == nil {
			r.Estimate = measure.Combine(value, parts, slopes)
			return r
		}
	}
	why := "it can't be worked out: " + err.Error()
	var endless *formula.NotFinite
	if errors.As(err, &endless) {
		why = "it can't be worked out from these readings (a division by nothing)"
	}
	return Result{Mark: Passed, Seq: r.Seq, Why: why}
}

// spread gives each band its probability. A cut whose names are unknown leaves
// the result without bands: it then counts as unsure everywhere.
func (j *judge) spread(r Result) Result {
	for _, band := range r.Test.Bands[:max(0, len(r.Test.Bands)-1)] {
		cut, err := band.Cut(j.values)
		if err != nil {
			return Result{Test: r.Test, Mark: Passed, Seq: r.Seq, Why: "its limit is not known: " + err.Error()}
		}
		r.Cuts = append(r.Cuts, cut)
	}
	r.Chance = measure.Spread(r.Estimate, r.Cuts)
	return r
}

// Mute says whether the display was read and gave no number that counts.
func (r Result) Mute() bool { return r.Flicker || r.Over }

// Best is the most probable band, or "" when there is none.
func (r Result) Best() string {
	best, name := 0.0, ""
	for i, chance := range r.Chance {
		if chance > best {
			best, name = chance, r.Test.Bands[i].Name
		}
	}
	return name
}

// Call says whether the reading is called for a band of its own.
func (r Result) Call() measure.Judgement {
	return r.CallBy(nil)
}

// CallBy calls the reading with bands of one group taken together.
func (r Result) CallBy(groups []int) measure.Judgement {
	switch {
	case r.Flicker:
		return measure.Judgement{Answer: measure.ByMachine}
	case r.Over:
		return measure.Judgement{Answer: measure.CantTell}
	}
	return measure.Judge(r.Estimate, r.Cuts, groups)
}

// Within is the probability that the test's answer is one of these bands or
// choices; ok is false when there is no such answer to judge.
func (r Result) Within(names []string) (chance float64, says string, ok bool) {
	switch {
	case r.Mark == Seen:
		if slices.Contains(names, r.Choice) {
			return 1, r.Choice, true
		}
		return 0, r.Choice, true
	case r.Mark != Read || r.Mute():
		return 0, "", false
	}
	for i, band := range r.Test.Bands {
		if slices.Contains(names, band.Name) {
			chance += r.Chance[i]
		}
	}
	return chance, r.Best(), true
}
