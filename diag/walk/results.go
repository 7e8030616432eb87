package walk

import (
	"errors"
	"math"
	"slices"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Results judges every test of the system by the facts: by id.
func Results(sys *tree.System, facts job.Facts) map[string]Result {
	values, _ := Values(sys, *facts.Intake)
	return judgeAll(sys, sys.Index(), facts, values).all()
}

// judge works out the result of every test of one system, inputs before the
// tests worked out from them.
type judge struct {
	*sheet
	facts job.Facts
	// earlier has a test that was made unknown again count as it was before.
	earlier bool
	values  formula.Values
	// room is values, with readings for tests that are worked out. A reading may
	// stay in it: what needs another one sets it first.
	room formula.Values
}

func judgeAll(sys *tree.System, ix *tree.Index, facts job.Facts, values formula.Values) *sheet {
	j := &judge{sheet: newSheet(sys, ix, len(facts.Answers)), facts: facts, values: values}
	return j.all()
}

// all judges every test.
func (j *judge) all() *sheet {
	sys, facts := j.system, j.facts
	for id := range facts.Answers {
		if at := sys.TestAt(id); at >= 0 && sys.Tests[at].Kind != tree.Worked {
			j.entries[at] = toJudge
		}
	}
	for at := range sys.Tests {
		if j.entries[at] == toJudge {
			j.judge(at)
		}
	}
	j.clashes()
	for at := range sys.Tests {
		j.judge(at)
	}
	return j.sheet
}

// judge enters the result of one test, unless it is entered already.
func (j *judge) judge(at int) {
	test := j.system.Tests[at]
	switch {
	case j.entries[at] == toJudge:
		j.enter(at, j.answered(test))
	case j.entries[at] == noAnswer && test.Kind == tree.Worked:
		// A test that needs itself can't be worked out; the loader refuses it, and
		// this keeps a damaged library from looping.
		j.entries[at] = inHand
		j.work(at)
	}
}

func (j *judge) enter(at int, r Result) {
	r.Test = j.system.Tests[at]
	if r.Mark == Read && !r.Mute() {
		r = j.lone(j.backward(j.disputed(j.spread(r))))
	}
	j.sheet.enter(at, r)
}

// answered takes the answers of the current epoch: the last one decides the
// kind, and readings that agree with it are averaged. Two that agree settle it,
// whatever stands between them.
func (j *judge) answered(test *tree.Test) Result {
	answers := j.facts.Current(test.ID)
	if j.earlier && len(answers) == 0 {
		answers = j.facts.Before(test.ID)
	}
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
	r := Result{Mark: Read, Seq: last.Seq, Count: 1, Estimate: latest, kept: last.Read.Sure}
	return r.against(j.before(test, answers))
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

// work computes a test from its inputs, with their uncertainty. Most tests wait
// for all of them, and are left at that.
func (j *judge) work(at int) {
	needs := j.index.Tests[at].Inputs
	waits := len(needs) > 0
	for _, in := range needs {
		j.judge(in)
		waits = waits && j.entries[in] < inHand
	}
	if waits {
		j.entries[at] = noInput
		return
	}
	j.enter(at, j.worked(j.system.Tests[at], needs))
}

func (j *judge) worked(test *tree.Test, needs []int) Result {
	r, lacking := Result{Mark: Read, Count: 1}, false
	inputs, parts := make([]string, 0, len(needs)), make([]measure.Estimate, 0, len(needs))
	for _, at := range needs {
		in, title := j.at(at), j.system.Tests[at].Title
		if in == nil {
			r.Lacks, lacking = append(r.Lacks, j.lacks(at)...), true
			continue
		}
		r.Seq = max(r.Seq, in.Seq)
		if in.Mark != Read || in.Mute() || math.IsInf(in.Estimate.Value, 0) {
			r.Why = "it needs a number from " + title
			continue
		}
		if in.Astray {
			r.Why = "the readings of " + title + " disagree; take it again"
			continue
		}
		if in.Clash != nil {
			r.Why = title + " can't be beside another reading; take both again"
			continue
		}
		if in.Lone {
			r.Why = title + " reads below nothing; take it once more to be sure of the leads"
			continue
		}
		if in.Backward {
			r.Why = title + " reads the wrong way round; take it again with the leads turned"
			continue
		}
		inputs, parts = append(inputs, in.Test.ID), append(parts, in.Estimate)
	}
	switch {
	case r.Why != "":
		return Result{Mark: Passed, Seq: r.Seq, Why: r.Why}
	case lacking:
		return Result{Mark: Unknown, Lacks: r.Lacks}
	}
	return propagate(test, r, j.with(inputs, parts), inputs, parts)
}

// with is the values with these readings.
func (j *judge) with(inputs []string, parts []measure.Estimate) formula.Values {
	if j.room.Numbers == nil {
		j.room = withNumbers(j.values)
	}
	for i, id := range inputs {
		j.room.Numbers[id] = parts[i].Value
	}
	return j.room
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
	bands := r.Test.Bands[:max(0, len(r.Test.Bands)-1)]
	if len(bands) > 0 {
		r.Cuts = make([]float64, 0, len(bands))
	}
	for _, band := range bands {
		cut, err := band.Cut(j.values)
		if err != nil {
			return Result{Test: r.Test, Mark: Passed, Seq: r.Seq, Why: "its limit is not known: " + err.Error()}
		}
		r.Cuts = append(r.Cuts, cut)
	}
	r.Chance = measure.Spread(r.Estimate, r.Cuts)
	return j.unread(r)
}

// Mute says whether the display was read and gave no number that counts.
func (r Result) Mute() bool { return r.Flicker || r.Over }

// Counts says whether the test has an answer that says something of the machine: a
// reading that gave a number, or something seen.
func (r Result) Counts() bool { return r.Mark == Seen || r.Mark == Read && !r.Mute() }

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
	if r.Clash != nil {
		return measure.Judgement{Answer: measure.ByClash}
	}
	if len(r.Others) > 0 && !r.undisputed(groups) {
		if r.Lone {
			return measure.Judgement{Answer: measure.ByOne}
		}
		if r.Backward {
			return measure.Judgement{Answer: measure.ByLeads}
		}
		return measure.Judgement{Answer: measure.ByRepeat}
	}
	if band, chance := sure(r.Chance, groups); chance >= measure.SureAt {
		return measure.Judgement{Answer: measure.Called, Band: band, Probability: min(1, chance)}
	}
	call := measure.Judge(r.Estimate, r.Cuts, groups)
	if len(r.Unread) > 0 {
		call.Answer, call.Probability = measure.ByLabel, 0
	}
	return call
}

// sure is what measure.Judge comes to when a reading can be called, from the
// chances that are worked out already: the group that has enough of it, and the
// best of its bands. The chance is 0 when none has.
func sure(chances []float64, groups []int) (band int, chance float64) {
	for i := range chances {
		sum, best := 0.0, -1
		for k, p := range chances {
			if k != i && (len(groups) != len(chances) || groups[k] != groups[i]) {
				continue
			}
			sum += p
			if best < 0 || p > chances[best] {
				best = k
			}
		}
		if sum >= measure.SureAt {
			return best, sum
		}
	}
	return 0, 0
}

// Within is the probability that the test's answer is one of these bands or
// choices; ok is false when there is no such answer to judge.
func (r Result) Within(names []string) (chance float64, says string, ok bool) {
	return r.within(names)
}

func (r *Result) within(names []string) (chance float64, says string, ok bool) {
	switch {
	case r.Mark == Seen:
		if slices.Contains(names, r.Choice) {
			return 1, r.Choice, true
		}
		return 0, r.Choice, true
	case r.Mark != Read || r.Mute():
		return 0, "", false
	}
	return r.provable(names), r.Best(), true
}
