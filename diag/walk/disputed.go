package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// mostReadings is how often one test is read before nothing more is asked of it: two
// that disagree, and two to settle it. A display that differs each time stays in doubt.
const mostReadings = 4

// earlier is what a reading before the last gave.
type earlierReading struct {
	estimate measure.Estimate
	numbered bool // false: it flickered
}

// before are the readings of a run but for the last, the latest first. Over range where
// that is no answer is left out: it only said that the range was too low. So is what was read
// with the leads turned.
func (j *judge) before(test *tree.Test, answers []job.Answer) []earlierReading {
	var out []earlierReading
	for i := len(answers) - 2; i >= 0 && answers[i].Read != nil; i-- {
		reading := answers[i].Read.Reading
		if reading.Kind == measure.OverRange && !Endless(test.Function) {
			continue
		}
		e, err := j.facts.Intake.Meter.Estimate(reading, j.facts.Intake.Celsius)
		if err == nil && j.backward(j.spread(Result{Test: test, Mark: Read, Estimate: e})).Backward {
			continue
		}
		out = append(out, earlierReading{estimate: e, numbered: err == nil})
	}
	return out
}

// against holds the latest reading of a test against those before it: what agrees with
// it is averaged, and settles it. When nothing agrees, the result is astray. What two
// readings had settled before the dispute is not gone into again.
func (r Result) against(before []earlierReading) Result {
	alike := []measure.Estimate{r.Estimate}
	for _, b := range before {
		if b.numbered && agree(b.estimate, r.Estimate) {
			alike = append(alike, b.estimate)
		}
	}
	if len(alike) > 1 {
		r.Estimate, r.Count = measure.Average(alike), len(alike)
		return r
	}
	r.Astray = len(before) > 0
	for _, b := range before {
		if !b.numbered {
			continue
		}
		settled := slices.ContainsFunc(r.Disputes, func(d measure.Estimate) bool { return agree(d, b.estimate) })
		if settled {
			break
		}
		r.Disputes = append(r.Disputes, b.estimate)
	}
	return r
}

// disputed gives each reading that the last one disagrees with its own chances.
func (j *judge) disputed(r Result) Result {
	for _, e := range r.Disputes {
		other := j.spread(Result{Test: r.Test, Mark: Read, Estimate: e})
		if r.Mark == Read && other.Mark == Read {
			r.Others = append(r.Others, other.Chance)
		}
	}
	return r
}

// InDispute says that what was read is no fact yet: readings disagree, one can't be beside
// another, or the leads may be swapped. What all of them say alike is none of these.
func (r Result) InDispute() bool {
	if r.Mark != Read || r.Mute() {
		return false
	}
	return r.Clash != nil || (r.Astray || r.Backward) && r.Call().Answer != measure.Called
}

// undisputed says whether all that a reading may be, of a test that is astray or reads
// backward, is called for the same bands, those of one group taken together.
func (r *Result) undisputed(groups []int) bool {
	band, chance := sure(r.Chance, groups)
	if chance < measure.SureAt {
		return false
	}
	for _, chances := range r.Others {
		other, chance := sure(chances, groups)
		same := other == band || len(groups) == len(chances) && groups[other] == groups[band]
		if chance < measure.SureAt || !same {
			return false
		}
	}
	return true
}

// provable is the chance of some bands; of a test whose readings disagree, or that reads
// backward, the least that one of them gives. One that can't be beside another gives none.
func (r *Result) provable(names []string) float64 {
	if r.Clash != nil {
		return 0
	}
	least := r.chanceOf(r.Chance, names)
	for _, chances := range r.Others {
		least = min(least, r.chanceOf(chances, names))
	}
	return least
}

func (r *Result) chanceOf(chances []float64, names []string) float64 {
	sum := 0.0
	for i, band := range r.Test.Bands {
		if slices.Contains(names, band.Name) {
			sum += chances[i]
		}
	}
	return sum
}

// settling asks once more for a test whose readings disagree in what they prove, and for
// tests whose readings can't be together: one of them is wrong, and nobody knows which until
// another agrees with it.
func (w *where) settling(p *Position, removed map[string]bool) bool {
	if w.leaving() || len(removed) > 0 {
		return false
	}
	for at, test := range w.system.Tests {
		r := w.sheet.at(at)
		if r == nil || r.Call().Answer != measure.ByRepeat && !r.Lone || w.facts.Times(test.ID) >= mostReadings || w.hasNot(test.ID) {
			continue
		}
		return w.dispute(p, test)
	}
	if test := clashing(w.system, w.sheet.of, w.facts); test != nil {
		return w.dispute(p, test)
	}
	return false
}

func (w *where) dispute(p *Position, test *tree.Test) bool {
	p.Stage, p.Test, p.Disputed = AtTest, test, true
	if w.repaired() {
		p.Stage = AtCheck
	}
	p.Verdict.Finished = false
	return true
}
