package suspect

import (
	"errors"
	"math"

	"benchlead/diag/measure"
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
	Kind   Kind
	Value  float64 // Number: base units
	U      float64 // Number: standard uncertainty, base units
	Choice string  // Seen
}

// Reading is a test with its answer, of the machine as it came in or at a stage of
// work. A test taken several times is one reading: the meter's error is the same
// each time.
type Reading struct {
	Key
	Answer
}

// shown is an answer of a simulated machine, as it is kept by the thousand.
type shown struct {
	kind   Kind
	choice uint8 // of the test's choices
	value  float32
	u      float32 // the meter's standard uncertainty there; of a flicker, half of its width
}

// noChoice is a choice that the test doesn't have.
const noChoice = math.MaxUint8

// show asks a simulated machine with the meter of the bench, which loads what it
// reads as that meter does, and is not wrong.
func show(m *virtual.Machine, test *tree.Test, meter measure.Meter) (shown, error) {
	s, err := m.Shows(test, virtual.Bench{Meter: meter, Bare: true})
	var none *virtual.Unanswered
	var scale *measure.ScaleError
	switch {
	case errors.As(err, &none), errors.As(err, &scale):
		return shown{}, nil
	case err != nil:
		return shown{}, err
	case test.Kind == tree.Observed:
		return shown{kind: Seen, choice: choiceOf(test, s.Choice)}, nil
	}
	a := Of(s.Reading, meter)
	if a.Kind == Flicker { // some meters show a mean between the two ends
		if is, err := m.Answer(test); err == nil {
			a.Value, a.U = (is.Low+is.High)/2, math.Abs(is.High-is.Low)/2
		}
	}
	return shown{kind: a.Kind, value: float32(a.Value), u: float32(a.U)}, nil
}

// Of is a meter's display as an answer, with how far it may be wrong on a bench of
// benchCelsius.
func Of(r measure.Reading, meter measure.Meter) Answer {
	switch r.Kind {
	case measure.Number:
		a := Answer{Kind: Number, Value: r.Value}
		if e, err := meter.Estimate(r, benchCelsius); err == nil {
			a.U = e.U()
		}
		return a
	case measure.OverRange:
		return Answer{Kind: Over}
	case measure.Flicker:
		return Answer{Kind: Flicker}
	}
	return Answer{}
}

func choiceOf(test *tree.Test, name string) uint8 {
	for i, c := range test.Choices {
		if c.Name == name {
			return uint8(min(i, noChoice-1))
		}
	}
	return noChoice
}
