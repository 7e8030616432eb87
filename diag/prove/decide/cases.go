package decide

import (
	"math"

	"benchlead/diag/prove"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// Kind is a sort of case.
type Kind string

// The kinds of case.
const (
	Single Kind = "single" // one fault
	Double Kind = "double" // two that come together
	// Trap is a double of which one wears the other out: a battery or pack, and
	// what should charge it.
	Trap Kind = "trap"
)

// Case is one machine that is brought in.
type Case struct {
	suspect.Hypothesis
	Draw      prove.Draw
	Complaint string
}

// of are the hypotheses of a kind.
func (k Kind) of(sys *tree.System) []suspect.Hypothesis {
	var out []suspect.Hypothesis
	for _, h := range suspect.Hypotheses(sys) {
		n := len(h.Faults)
		if k == Single && n == 1 || k == Double && n > 1 || k == Trap && h.Charge {
			out = append(out, h)
		}
	}
	return out
}

// mostTries is how many machines are built at most for each that is brought in.
const mostTries = 20

// cases draws about n cases of a kind, as often as each is common. A machine that
// nobody complains of is not brought in.
func cases(maker prove.Maker, sys *tree.System, k Kind, o Options, n int) ([]Case, error) {
	hypotheses := k.of(sys)
	sum := 0.0
	for _, h := range hypotheses {
		sum += h.Common
	}
	var out []Case
	for _, h := range hypotheses {
		want := int(math.Ceil(float64(n) * h.Common / sum))
		for number, came := 0, 0; came < want && number < want*mostTries; number++ {
			c := Case{Hypothesis: h, Draw: prove.Draw{Seed: o.Seed, Number: number, Faults: h.Faults, Wide: o.Wide}}
			m, err := maker.Build(c.Draw)
			if err != nil {
				return nil, err
			}
			if c.Complaint, err = m.Complaint(); err != nil {
				return nil, err
			}
			if c.Complaint != "" && c.Complaint != prove.Unasked(sys) {
				out, came = append(out, c), came+1
			}
		}
	}
	return out, nil
}
