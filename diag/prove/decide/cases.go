package decide

import (
	"fmt"
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

// coming draws machines until so many are brought in. A machine that nobody complains
// of is not; one that somebody would complain of without its fault has something else
// wrong with it, and is put aside. The places on the scale of how
// common things are lie a golden part of it apart, so that in any row of machines
// each hypothesis has its share, whatever the number.
func coming(maker prove.Maker, sys *tree.System, hypotheses []suspect.Hypothesis, o Options, want int) ([]Case, error) {
	sum := 0.0
	for _, h := range hypotheses {
		sum += h.Common
	}
	var out []Case
	for number := 0; len(out) < want && number < want*mostTries; number++ {
		_, place := math.Modf(float64(number+1) / math.Phi)
		h := at(hypotheses, place*sum)
		c := Case{Hypothesis: h, Draw: prove.Draw{Seed: o.Seed, Number: number, Faults: h.Faults, Wide: o.Wide}}
		m, err := maker.Build(c.Draw)
		if err != nil {
			return nil, err
		}
		if c.Complaint, err = m.Complaint(); err != nil {
			return nil, err
		}
		if c.Complaint == "" || c.Complaint == sys.Circuit.Unasked() {
			continue
		}
		sound, err := isSound(maker, sys, c.Draw)
		if err != nil {
			return nil, err
		}
		if sound {
			out = append(out, c)
		}
	}
	if len(out) < want {
		return nil, fmt.Errorf("of %d machines of %s only %d are brought in", want*mostTries, sys.ID, len(out))
	}
	return out, nil
}

// at is the hypothesis at a place on the scale of how common they are.
func at(hypotheses []suspect.Hypothesis, place float64) suspect.Hypothesis {
	for _, h := range hypotheses {
		if place -= h.Common; place < 0 {
			return h
		}
	}
	return hypotheses[len(hypotheses)-1] // rounding
}

// isSound says whether nobody would complain of the machine of a draw without its
// faults.
func isSound(maker prove.Maker, sys *tree.System, d prove.Draw) (bool, error) {
	d.Faults = nil
	m, err := maker.Build(d)
	if err != nil {
		return false, err
	}
	says, err := m.Complaint()
	return says == "" || says == sys.Circuit.Unasked(), err
}
