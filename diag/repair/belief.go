package repair

import (
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/tree"
)

// Likely is something that may be wrong: faults that are there together, and how
// likely that is. The list should name everything that is thought possible, also
// what is very unlikely: a finding that nobody on the list has is taken as sure.
type Likely struct {
	Faults []string // ids; none: nothing is wrong
	// Gone: something is wrong that does not show now. No repair clears that.
	Gone        bool
	Probability float64 // 0 to 1; counted to four places
}

// places are those that a probability is counted to.
const places = 4

// belief is what is thought to be wrong, exact to four places.
type belief struct {
	of     []believed
	others decimal.Decimal // what the list leaves out
}

type believed struct {
	faults []string
	gone   bool
	p      decimal.Decimal
}

// slack is how far the sum of probabilities may be over 1 because each is rounded.
var slack = decimal.New(1, -2)

// believe counts the suspects in. The error names one whose probability is none.
func believe(suspects []Likely) (belief, error) {
	var b belief
	sum := decimal.Zero
	for _, s := range suspects {
		p, err := chance(s.Probability)
		if err != nil {
			return belief{}, fmt.Errorf("suspect %v: %w", s.Faults, err)
		}
		b.of = append(b.of, believed{s.Faults, s.Gone, p})
		sum = sum.Add(p)
	}
	if sum.GreaterThan(money.One.Add(slack)) {
		return belief{}, fmt.Errorf("the probabilities of the suspects come to %s; write shares of 1", sum)
	}
	b.others = decimal.Max(money.One.Sub(sum), decimal.Zero)
	return b, nil
}

func chance(p float64) (decimal.Decimal, error) {
	if math.IsNaN(p) || p < 0 || p > 1 {
		return decimal.Zero, fmt.Errorf("%g is no probability; write a share from 0 to 1", p)
	}
	return decimal.NewFromFloat(p).Round(places), nil
}

// known says whether anybody weighed what is wrong.
func (b belief) known() bool { return len(b.of) > 0 }

// cleared says whether nothing stays wrong once the repairs are done.
func (h believed) cleared(repairs []*tree.Repair) bool { return !h.gone && len(h.left(repairs)) == 0 }

// left are the faults that no repair of the set clears.
func (h believed) left(repairs []*tree.Repair) []string {
	var out []string
	for _, f := range h.faults {
		if !slices.ContainsFunc(repairs, func(r *tree.Repair) bool { return slices.Contains(r.Clears, f) }) {
			out = append(out, f)
		}
	}
	return out
}

// clears is how likely the repairs clear all that is wrong.
func (b belief) clears(repairs []*tree.Repair) decimal.Decimal {
	sum := decimal.Zero
	for _, h := range b.of {
		if h.cleared(repairs) {
			sum = sum.Add(h.p)
		}
	}
	return decimal.Min(sum, money.One)
}

// wrong is how likely none of the faults is there. A fault that the list doesn't
// have is beside what it weighs: the finding stands.
func (b belief) wrong(faults []string) decimal.Decimal {
	there := decimal.Zero
	for _, f := range faults {
		if !slices.ContainsFunc(b.of, func(h believed) bool { return slices.Contains(h.faults, f) }) {
			return decimal.Zero
		}
	}
	for _, h := range b.of {
		if slices.ContainsFunc(h.faults, func(f string) bool { return slices.Contains(faults, f) }) {
			there = there.Add(h.p)
		}
	}
	return decimal.Max(money.One.Sub(there), decimal.Zero)
}

// likely is from where a suspect is heeded before money is spent. Judgement.
var likely = decimal.New(5, -2)

// holds says whether the repairs clear what is wrong whichever likely suspect it is.
func (b belief) holds(repairs []*tree.Repair) bool {
	return b.known() && !slices.ContainsFunc(b.of, func(h believed) bool {
		return h.p.GreaterThan(likely) && !h.cleared(repairs)
	})
}
