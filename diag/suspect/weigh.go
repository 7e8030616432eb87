package suspect

import (
	"cmp"
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
	weight []float64       // by machine; they sum to 1
	fits   map[*column]fit // of the readings that count
}

// Weigh holds the answers against every machine. Their order does not matter; of
// two answers to one test the later counts. A test that the system doesn't have,
// an answer that is none, and a machine that can't answer tell nothing.
func (c *Cloud) Weigh(readings []Reading) Weighing {
	w := Weighing{
		P: make([]float64, len(c.hypotheses)), Odds: make([]float64, len(readings)),
		cloud: c, weight: slices.Clone(c.weight), fits: map[*column]fit{},
	}
	for _, r := range c.counting(readings) {
		f := c.fit(r)
		if f.of == nil {
			continue
		}
		w.fits[c.columns[r.Key]] = f
		most := 0.0
		for i, share := range f.of {
			w.weight[i] *= share
			most = max(most, w.weight[i])
		}
		for i := range w.weight { // so that many readings don't come to nothing
			w.weight[i] /= most
		}
	}
	w.sum()
	for i, r := range readings {
		w.Odds[i] = w.odds(w.fits[c.columns[r.Key]])
	}
	return w
}

// sum brings the weights to 1 and adds them up by hypothesis.
func (w *Weighing) sum() {
	total, squares := 0.0, 0.0
	for _, weight := range w.weight {
		total += weight
	}
	for i, h := range w.cloud.of {
		w.weight[i] /= total
		w.P[h] += w.weight[i]
		squares += w.weight[i] * w.weight[i]
	}
	w.Fitting = 1 / squares
}

// odds is how likely a reading is a slip.
func (w *Weighing) odds(f fit) float64 {
	sum := 0.0
	for i, share := range f.of {
		sum += w.weight[i] * f.slip / share
	}
	return sum
}

// counting is the readings that count, by name: sums of floats come out the same
// only in the same order.
func (c *Cloud) counting(readings []Reading) []Reading {
	var out []Reading
	for i, r := range readings {
		column := c.columns[r.Key]
		if column != nil && !slices.ContainsFunc(readings[i+1:], func(later Reading) bool { return c.columns[later.Key] == column }) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b Reading) int {
		return cmp.Or(cmp.Compare(a.Test, b.Test), cmp.Compare(a.Stage, b.Stage))
	})
	return out
}

// fit is how well an answer fits each machine, and the part of it that is chance. A
// machine that can't answer fits as well as the others do on average.
type fit struct {
	of   []float64 // by machine; nil when the answer tells nothing
	slip float64
}

// fit holds one answer against every machine.
func (c *Cloud) fit(r Reading) fit {
	column := c.columns[r.Key]
	if column == nil || r.Kind == None {
		return fit{}
	}
	choice := uint8(noChoice)
	if r.Kind == Seen {
		choice = choiceOf(column.test, r.Choice)
	}
	if r.Kind == Seen && !slices.ContainsFunc(column.shown, func(s shown) bool { return s.kind == Seen && s.choice == choice }) {
		return fit{} // no machine ever shows that: it is not simulated
	}
	out := fit{of: make([]float64, len(column.shown)), slip: column.slip(r.Kind)}
	mean, silent := 0.0, 0
	for i, s := range column.shown {
		if s.kind == None {
			silent++
			continue
		}
		out.of[i] = column.fit(r.Answer, choice, s) + out.slip
		mean += c.weight[i] * out.of[i]
	}
	if silent == 0 {
		return out
	}
	// Nothing is known of what these would show: they keep their share.
	share := 0.0
	for i, s := range column.shown {
		if s.kind != None {
			share += c.weight[i]
		}
	}
	if share == 0 {
		return fit{}
	}
	for i, s := range column.shown {
		if s.kind == None {
			out.of[i] = mean / share
		}
	}
	return out
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
