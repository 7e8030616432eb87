package counsel

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Test is a test that would tell much.
type Test struct {
	suspect.Offer
	Work   []*tree.Work // to be done before; usually none
	Splits []Split      // which answer speaks for which of the likeliest suspects; none when it parts only others
}

// Split is an answer, and the suspects most of whose machines would give it.
type Split struct {
	Answer string
	Titles []string
}

// String is the split in a line.
func (s Split) String() string { return s.Answer + ": " + strings.Join(s.Titles, ", or ") }

// tests are the best that can be taken next. Looks may come before everything that is
// metered; the best reading is among them all the same, for whoever has looked already.
func (c *counsel) tests() []Test {
	offers := slices.Clone(c.offers)
	metered := func(o suspect.Offer) bool { return o.Test.Kind == tree.Metered }
	if at := slices.IndexFunc(offers, metered); at >= mostTests {
		offers[mostTests-1] = offers[at]
	}
	var out []Test
	for _, o := range offers[:min(len(offers), mostTests)] {
		t := Test{Offer: o, Splits: c.splits(o)}
		if o.After != nil {
			for _, id := range o.After.Work {
				t.Work = append(t.Work, c.pos.System.FindWork(id))
			}
		}
		out = append(out, t)
	}
	return out
}

// splits says which answer the likeliest suspects would give: those with the same one
// stand together.
func (c *counsel) splits(o suspect.Offer) []Split {
	key := c.keyOf(o)
	var out []Split
	for i, s := range c.weighing.Ranked() {
		if i == mostSuspects || s.P < worthALine {
			break
		}
		says := c.foretold(key, s.Hypothesis)
		if says == "" {
			continue
		}
		at := slices.IndexFunc(out, func(had Split) bool { return had.Answer == says })
		if at < 0 {
			at, out = len(out), append(out, Split{Answer: says})
		}
		out[at].Titles = append(out[at].Titles, s.Hypothesis.Title(c.pos.System))
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// keyOf is an offered test at the stage that it is taken at.
func (c *counsel) keyOf(o suspect.Offer) suspect.Key {
	key := suspect.Key{Stage: c.at.Stage, Test: o.Test.ID}
	if o.After != nil {
		key.Stage = o.After.ID
	}
	return key
}

// foretold is the answer that most machines of a suspect would give.
func (c *counsel) foretold(key suspect.Key, h suspect.Hypothesis) string {
	names, share := c.answers(key, c.index(h), c.naming(c.pos.System.Test(key.Test)))
	if len(names) == 0 {
		return ""
	}
	return slices.MaxFunc(names, func(a, b string) int { return cmp.Compare(share[a], share[b]) })
}

// answers are the answers that machines of a hypothesis would give, by name, with the
// share of the machines; together 1 where every machine answers.
func (c *counsel) answers(key suspect.Key, hypothesis int, call naming) (names []string, share map[string]float64) {
	share = map[string]float64{}
	for _, f := range c.weighing.Foretold(key, hypothesis) {
		name := call.name(f.Answer)
		if share[name] == 0 {
			names = append(names, name)
		}
		share[name] += f.Share
	}
	return names, share
}

// naming calls the answers to a test by its bands and choices.
type naming struct {
	test *tree.Test
	cuts []float64 // by band; NaN where it can't be worked out
}

func (c *counsel) naming(test *tree.Test) naming {
	values, _ := walk.Values(c.pos.System, *c.facts.Intake)
	out := naming{test: test}
	for _, band := range test.Bands {
		cut, err := band.Cut(values)
		if err != nil {
			cut = math.NaN()
		}
		out.cuts = append(out.cuts, cut)
	}
	return out
}

// name is the band or the choice that an answer falls in.
func (n naming) name(a suspect.Answer) string {
	switch a.Kind {
	case suspect.Seen:
		for _, choice := range n.test.Choices {
			if choice.Name == a.Choice {
				return cmp.Or(choice.Title, choice.Name)
			}
		}
		return a.Choice
	case suspect.Flicker:
		return "it flickers"
	case suspect.Over:
		if last := len(n.test.Bands) - 1; last >= 0 {
			return n.test.Bands[last].Name
		}
		return "OL"
	}
	for i, band := range n.test.Bands {
		if band.Below == nil || a.Value < n.cuts[i] {
			return band.Name
		}
	}
	return "a number"
}
