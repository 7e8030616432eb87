package counsel

import (
	"cmp"
	"slices"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// Foretelling is a test that could be taken next, with what each answer to it would
// make of the suspects. It is for weighing what the test is worth in money.
type Foretelling struct {
	Test    *tree.Test
	After   *tree.Stage // the work to be done before; nil as the machine stands
	Minutes float64     // with the way to its points and with that work
	Answers []Answer    // the likeliest first; their P come to 1
}

// Answer is one answer to a test.
type Answer struct {
	Says     string // the band or the choice; noAnswer where a machine can't be asked
	P        float64
	Suspects []suspect.Suspect // as they would be after it, the likeliest first
}

// noAnswer is what a machine says that can't be asked: it tells nothing of itself.
const noAnswer = "no answer"

// mostForetold bounds the tests that are foretold: the best of those offered.
const mostForetold = 12

// foretell works out for the tests that would tell most what each answer would make of
// the suspects.
func (c *counsel) foretell() []Foretelling {
	var out []Foretelling
	for _, o := range c.offers[:min(len(c.offers), mostForetold)] {
		out = append(out, Foretelling{Test: o.Test, After: o.After, Minutes: o.Minutes, Answers: c.outcomes(o)})
	}
	return out
}

// outcomes are the answers to a test, with the suspects after each.
func (c *counsel) outcomes(o suspect.Offer) []Answer {
	call, key := c.naming(o.Test), c.keyOf(o)
	var out []Answer
	hypotheses := c.cloud.Hypotheses()
	for i, p := range c.weighing.P {
		if p == 0 {
			continue
		}
		names, share := c.answers(key, i, call)
		rest := 1.0
		for _, name := range names {
			out = tell(out, name, suspect.Suspect{Hypothesis: hypotheses[i], P: p * share[name]})
			rest -= share[name]
		}
		if rest > slightRest {
			out = tell(out, noAnswer, suspect.Suspect{Hypothesis: hypotheses[i], P: p * rest})
		}
	}
	for i := range out {
		for j := range out[i].Suspects {
			out[i].Suspects[j].P /= out[i].P
		}
		slices.SortStableFunc(out[i].Suspects, func(a, b suspect.Suspect) int { return cmp.Compare(b.P, a.P) })
	}
	slices.SortStableFunc(out, func(a, b Answer) int { return cmp.Compare(b.P, a.P) })
	return out
}

// slightRest is a share of machines that is only what adding up leaves.
const slightRest = 1e-9

// tell adds a suspect to an answer.
func tell(answers []Answer, says string, s suspect.Suspect) []Answer {
	at := slices.IndexFunc(answers, func(a Answer) bool { return a.Says == says })
	if at < 0 {
		at, answers = len(answers), append(answers, Answer{Says: says})
	}
	answers[at].P += s.P
	answers[at].Suspects = append(answers[at].Suspects, s)
	return answers
}
