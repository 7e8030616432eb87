package suspect

import (
	"errors"
	"math"

	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Kind is the sort of an answer.
type Kind uint8

// The kinds of answer.
const (
	None    Kind = iota // no answer: it tells nothing
	Number              // a value
	Over                // over range, or open
	Flicker             // no display that settles
	Seen                // a choice
)

// Answer is what came of a test, or what a simulated machine shows.
type Answer struct {
	Kind  Kind
	Value float64 // Number: base units
	// U is the standard uncertainty of a reading, base units; a simulated machine's
	// answers have none.
	U      float64
	Choice string // Seen
}

// Reading is a test with its answer. A test taken several times is one reading:
// the meter's error is the same each time.
type Reading struct {
	Test string
	Answer
}

// shown is an answer of a simulated machine, as it is kept by the thousand.
type shown struct {
	kind   Kind
	choice uint8 // of the test's choices
	value  float32
}

// noChoice is a choice that the test doesn't have.
const noChoice = math.MaxUint8

// show asks a simulated machine with an ideal meter.
func show(m *virtual.Machine, test *tree.Test) (shown, error) {
	a, err := m.Answer(test)
	var none *virtual.Unanswered
	switch {
	case errors.As(err, &none):
		return shown{}, nil
	case err != nil:
		return shown{}, err
	case test.Kind == tree.Observed:
		return shown{kind: Seen, choice: choiceOf(test, a.Choice)}, nil
	case a.Live, math.IsNaN(a.Value):
		return shown{}, nil
	case a.Flicker:
		return shown{kind: Flicker}, nil
	case a.Over, math.IsInf(a.Value, 0):
		return shown{kind: Over}, nil
	}
	return shown{kind: Number, value: float32(a.Value)}, nil
}

func choiceOf(test *tree.Test, name string) uint8 {
	for i, c := range test.Choices {
		if c.Name == name {
			return uint8(min(i, noChoice-1))
		}
	}
	return noChoice
}
