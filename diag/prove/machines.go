package prove

import (
	"errors"
	"fmt"
	"math"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Simulated gives makers of machines from the circuits of the library.
func (p *Plan) Simulated(sys *tree.System) (Maker, error) {
	m, err := virtual.NewMaker(sys, virtual.Conditions{Celsius: Celsius})
	if err != nil {
		return nil, err
	}
	return simulated{m}, nil
}

type simulated struct{ maker *virtual.Maker }

func (s simulated) Build(d Draw) (Machine, error) {
	m, err := s.maker.Build(virtual.Draw{Seed: d.Seed, Number: d.Number, Faults: d.Faults, Shift: d.Shift, Wide: d.Wide})
	if err != nil {
		return nil, err
	}
	return machine{m, d}, nil
}

type machine struct {
	*virtual.Machine
	draw Draw
}

// Take reads with a meter that is wrong within its accuracy. A test that the
// circuit doesn't show can't be taken.
func (m machine) Take(test *tree.Test, with Hand) (Answer, error) {
	s, err := m.Shows(test, virtual.Bench{
		Meter: with.Meter, Noise: true, Slips: with.Slip, Untaken: with.Untaken, Take: with.Again,
	})
	var none *virtual.Unanswered
	var untaken *virtual.Untaken
	var scale *measure.ScaleError
	switch {
	case errors.As(err, &none), errors.As(err, &untaken), errors.As(err, &scale):
		return Answer{Cant: err.Error()}, nil
	case err != nil:
		return Answer{}, fmt.Errorf("test %s: %w", test.ID, err)
	case test.Kind == tree.Observed:
		return Answer{Choice: s.Choice, Slipped: s.Slipped}, nil
	}
	return Answer{Reading: &s.Reading, Slipped: s.Slipped}, nil
}

// Ways says in which way each fault came about.
func (m machine) Ways() []string {
	var out []string
	for _, fault := range m.draw.Faults {
		out = append(out, fmt.Sprintf("%s %q", fault, m.Machine.Ways()[fault]))
	}
	return out
}

// Drawn are the numbers that differ from what is usual. One that no machine is
// drawn with, and that a fault has set, is off without limit.
func (m machine) Drawn() []Drawn {
	var out []Drawn
	for _, v := range m.Machine.Drawn() {
		off := v.Number - v.Usual
		if v.Word != "" || off == 0 || math.IsNaN(off) {
			continue
		}
		if width := v.Most - v.Least; width > 0 {
			off /= width
		} else {
			off = math.Copysign(math.Inf(1), off)
		}
		out = append(out, Drawn{
			Says: v.Value.Says, Off: off,
			Text:  measure.Format(v.Number, v.Value.Unit, v.Value.PerUnit, 0),
			Usual: measure.Format(v.Usual, v.Value.Unit, v.Value.PerUnit, 0),
		})
	}
	return out
}
