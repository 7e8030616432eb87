package suspect

import (
	"cmp"
	"math"
	"slices"
)

// Weighing is what the answers so far leave of the clouds.
type Weighing struct {
	// P is how likely each hypothesis is, in the order of Cloud.Hypotheses.
	P []float64
	// Odds is by reading, in the order given: how likely it is a slip.
	Odds []float64
	// Fitting is how many machines still carry weight: few says that the answers
	// fit little of what was simulated.
	Fitting float64

	cloud  *Cloud
	weight []float64 // by machine; they sum to 1
}

// Weigh holds the answers against every machine. Their order does not matter; of
// two answers to one test the later counts. A test that the system doesn't have,
// an answer that is none, and a machine that can't answer tell nothing.
func (c *Cloud) Weigh(readings []Reading) Weighing {
	logs := make([]float64, len(c.of))
	for i, w := range c.weight {
		logs[i] = math.Log(w)
	}
	for _, r := range counting(readings) {
		c.each(r, func(i int, fit, _ float64) { logs[i] += math.Log(fit) })
	}
	w := Weighing{P: make([]float64, len(c.hypotheses)), cloud: c, weight: logs}
	normalise(w.weight)
	squares := 0.0
	for i, h := range c.of {
		w.P[h] += w.weight[i]
		squares += w.weight[i] * w.weight[i]
	}
	w.Fitting = 1 / squares
	for _, r := range readings {
		slip := 0.0
		c.each(r, func(i int, fit, part float64) { slip += w.weight[i] * part / fit })
		w.Odds = append(w.Odds, slip)
	}
	return w
}

// counting is the readings that count, by test: sums of floats come out the same
// only in the same order.
func counting(readings []Reading) []Reading {
	var out []Reading
	for i, r := range readings {
		if !slices.ContainsFunc(readings[i+1:], func(later Reading) bool { return later.Test == r.Test }) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b Reading) int { return cmp.Compare(a.Test, b.Test) })
	return out
}

// each calls with every machine that can answer the reading's test.
func (c *Cloud) each(r Reading, with func(machine int, fit, slip float64)) {
	column := c.columns[r.Test]
	if column == nil || r.Kind == None {
		return
	}
	choice := uint8(noChoice)
	if r.Kind == Seen {
		choice = choiceOf(column.test, r.Choice)
	}
	for i, s := range column.shown {
		if s.kind != None {
			fit, slip := column.fit(r.Answer, choice, s)
			with(i, fit, slip)
		}
	}
}

// normalise turns logarithms of weights into weights that sum to 1.
func normalise(logs []float64) {
	most := slices.Max(logs)
	sum := 0.0
	for i, l := range logs {
		logs[i] = math.Exp(l - most)
		sum += logs[i]
	}
	for i := range logs {
		logs[i] /= sum
	}
}

// Suspect is a hypothesis with its probability.
type Suspect struct {
	Hypothesis
	P float64
}

// Ranked are the hypotheses, the likeliest first; equal ones in their order.
func (w Weighing) Ranked() []Suspect {
	out := make([]Suspect, len(w.P))
	for i, h := range w.cloud.hypotheses {
		out[i] = Suspect{h, w.P[i]}
	}
	slices.SortStableFunc(out, func(a, b Suspect) int { return cmp.Compare(b.P, a.P) })
	return out
}

// Fault is how likely a fault is there, alone or with others.
func (w Weighing) Fault(id string) float64 {
	sum := 0.0
	for i, h := range w.cloud.hypotheses {
		if h.Has(id) {
			sum += w.P[i]
		}
	}
	return sum
}
