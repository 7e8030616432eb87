package counsel

import (
	"slices"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Again is a reading that fits none of what is likely.
type Again struct {
	Test     *tree.Test
	Repeated bool // it was taken again already, and stays
	Says     string
}

// Doubt is a finding that the suspects contradict.
type Doubt struct {
	Fault  *tree.Fault
	P      float64
	Repeat *tree.Test // the reading on which it hangs
}

// slip is how likely an answer must be chance to be asked for again.
const slip = 0.5

// What is said of a reading that fits nothing.
const (
	takeAgain     = "It fits nothing that is likely. Take it again."
	measureAround = "It stays, and fits nothing that is likely: more than one fault, or one that is not on the list. Measure around it."
)

// again are the readings that are likelier chance than true, but for those that show a
// danger: that is heeded, not explained away. Of a test read before some
// work and after it only the latest can be taken again.
func (c *counsel) again() []Again {
	if !c.known {
		return nil // no answer would count
	}
	var out []Again
	for i, r := range c.readings {
		latest := i+1 == len(c.readings) || c.readings[i+1].Test != r.Test // they stand test by test
		if !latest || c.weighing.Odds[i] < slip || c.beside(r.Test) || walk.Dangerous(c.pos.Results[r.Test]) {
			continue
		}
		a := Again{Test: c.pos.System.Test(r.Test), Says: takeAgain}
		if a.Repeated = c.repeated(r.Test); a.Repeated {
			a.Says = measureAround
		}
		out = append(out, a)
	}
	return out
}

// repeated says whether a test was answered more than once since it was last made
// unknown. Passed over is not answered.
func (c *counsel) repeated(test string) bool {
	times, all := 0, c.facts.Answers[test]
	for _, a := range all {
		if a.Cant == nil && a.Epoch == all[len(all)-1].Epoch {
			times++
		}
	}
	return times > 1
}

// beside says whether an answer shows a fault that has nothing to do with the complaint: a
// bridged switch beside a dead battery. The clouds know nothing of it.
func (c *counsel) beside(test string) bool {
	return slices.ContainsFunc(c.pos.Verdict.Found, func(f walk.Finding) bool {
		return !c.cloud.Has(f.Fault.ID) && slices.ContainsFunc(f.Evidence, func(e walk.Evidence) bool { return e.Test.ID == test })
	})
}

// inDoubt is how likely a finding must be to stand undoubted.
const inDoubt = 0.3

// doubts are the findings that the suspects hold to be unlikely, each with the reading
// of its evidence that most likely is chance.
func (c *counsel) doubts() []Doubt {
	var out []Doubt
	for _, f := range c.pos.Verdict.Found {
		if !c.cloud.Has(f.Fault.ID) || f.Fault.Danger != "" {
			continue // a danger is never put in doubt by odds
		}
		if p := c.weighing.Fault(f.Fault.ID); p < inDoubt {
			out = append(out, Doubt{Fault: f.Fault, P: p, Repeat: c.hangsOn(f)})
		}
	}
	return out
}

// hangsOn is the test of a finding's evidence whose answer is the likeliest to be
// chance; of a test that is worked out, one that it is worked out from.
func (c *counsel) hangsOn(f walk.Finding) *tree.Test {
	var best *tree.Test
	most := -1.0
	for _, e := range f.Evidence {
		tests := []string{e.Test.ID}
		if e.Test.Kind == tree.Worked {
			tests = e.Test.From.Needs()
		}
		for i, r := range c.readings {
			if slices.Contains(tests, r.Test) && c.weighing.Odds[i] > most {
				best, most = c.pos.System.Test(r.Test), c.weighing.Odds[i]
			}
		}
	}
	return best
}

// judging are the tests by which the trees find or clear a fault, and what worked-out ones
// among them are worked out from.
func (c *counsel) judging(fault string) map[string]bool {
	out := map[string]bool{}
	note := func(test *tree.Test) {
		out[test.ID] = true
		if test.Kind == tree.Worked {
			for _, id := range test.From.Needs() {
				out[id] = true
			}
		}
	}
	for _, t := range c.lib.TreesFor(c.pos.System.ID) {
		for _, s := range t.Steps {
			for _, e := range s.By {
				if test := c.pos.System.Test(e.Test); s.Fault == fault && test != nil {
					note(test)
				}
			}
		}
	}
	for _, test := range c.pos.System.Tests {
		for _, b := range test.Bands {
			if slices.Contains(b.Clears, fault) {
				note(test)
			}
		}
		for _, choice := range test.Choices {
			if slices.Contains(choice.Clears, fault) {
				note(test)
			}
		}
	}
	return out
}

// decides is a test that tells whether a fault is there, of those that tell much: one by
// which the trees judge it; else what the trees would ask; else any.
func (c *counsel) decides(fault string) *tree.Test {
	if test := c.parting(fault, c.judging(fault)); test != nil {
		return test
	}
	if test := walk.Deciding(c.lib, c.pos, fault); test != nil {
		return test
	}
	return c.parting(fault, nil)
}

// parting is the first offer, of some tests or of all, that foretells otherwise with a
// fault than without; a reading before a look.
func (c *counsel) parting(fault string, among map[string]bool) *tree.Test {
	ranked := c.weighing.Ranked()
	with := slices.IndexFunc(ranked, func(s suspect.Suspect) bool { return s.Has(fault) })
	without := slices.IndexFunc(ranked, func(s suspect.Suspect) bool { return !s.Has(fault) })
	if with < 0 || without < 0 {
		return nil
	}
	var look *tree.Test
	for _, o := range c.offers {
		key := suspect.Key{Stage: c.at.Stage, Test: o.Test.ID}
		if o.After != nil || among != nil && !among[o.Test.ID] || c.foretold(key, ranked[with].Hypothesis) == c.foretold(key, ranked[without].Hypothesis) {
			continue
		}
		if o.Test.Kind == tree.Metered {
			return o.Test
		}
		if look == nil {
			look = o.Test
		}
	}
	return look
}
