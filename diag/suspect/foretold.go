package suspect

import "benchlead/diag/tree"

// Foretold is an answer that machines of a hypothesis would give, with the share of
// them, by weight, that would give it.
type Foretold struct {
	Answer
	Share float64
}

// Foretold are the answers of a hypothesis' machines to a test, by what the readings
// so far leave of them, alike choices together, numbers one by one. Nothing for a
// test that is not simulated there.
func (w Weighing) Foretold(key Key, hypothesis int) []Foretold {
	column := w.cloud.columns[key]
	if column == nil || w.P[hypothesis] == 0 {
		return nil
	}
	var out []Foretold
	at := map[shown]int{}
	for i, s := range column.shown {
		if w.cloud.of[i] != hypothesis || s.kind == None {
			continue
		}
		share := w.weight[i] / w.P[hypothesis]
		k, had := at[s]
		if !had {
			k, at[s] = len(out), len(out)
			out = append(out, Foretold{Answer: s.answer(column.test)})
		}
		out[k].Share += share
	}
	return out
}

// answer is what is kept by the thousand, as it is given out.
func (s shown) answer(test *tree.Test) Answer {
	a := Answer{Kind: s.kind, Value: float64(s.value), U: float64(s.u)}
	if s.kind == Seen && int(s.choice) < len(test.Choices) {
		a.Choice = test.Choices[s.choice].Name
	}
	return a
}

// Reweighed is the cloud with other odds of its hypotheses before any reading: so many
// times as likely as before. The machines are the same.
func (c *Cloud) Reweighed(times func(Hypothesis) float64) *Cloud {
	out := *c
	out.prior = make([]float64, len(c.prior))
	for i, h := range c.hypotheses {
		out.prior[i] = c.prior[i] * times(h)
	}
	out.share()
	return &out
}

// System is the system whose machines they are.
func (c *Cloud) System() *tree.System { return c.system }

// Has says whether a fault is among what is simulated.
func (c *Cloud) Has(fault string) bool {
	for _, h := range c.hypotheses {
		if h.Has(fault) {
			return true
		}
	}
	return false
}
