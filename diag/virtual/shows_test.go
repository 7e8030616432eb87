package virtual

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
)

func TestAReadingIsWithinTheMetersAccuracy(t *testing.T) {
	maker := makerOf(t, "start")
	far, sum := 0, 0.0
	const machines = 300
	for number := range machines {
		machine := build(t, maker, Draw{Number: number})
		test := testOf(t, machine, "starter")
		s, err := machine.Shows(test, Bench{Meter: pocket, Noise: true})
		require.NoError(t, err)
		r := s.Reading
		require.Equal(t, measure.Number, r.Kind)
		require.Equal(t, 20.0, r.Range, "10 V do not fit the 2 V range")
		truth := answerOf(t, machine, "starter").Value
		most := 0.005*truth + 2*0.01 // 0.5 % and 2 counts
		require.InDelta(t, truth, r.Value, most+0.005, "and half a digit")
		require.InDelta(t, math.Round(r.Value*100), r.Value*100, 1e-6, "whole digits")
		off := (r.Value - truth) / most
		sum += off
		if math.Abs(off) > 0.5 {
			far++
		}
	}
	require.Greater(t, far, machines/20, "some are far off")
	require.InDelta(t, 0, sum/machines, 0.1, "as many above as below")
}

func TestTheErrorOfAScaleIsTheSameAllDay(t *testing.T) {
	machine := usual(t, "start")
	test := testOf(t, machine, "posts")
	scale := pocket.Scales[1]
	scale.Counts = 0
	for take := range 5 {
		b := Bench{Meter: pocket, Noise: true, Take: take}
		require.Equal(t, machine.noisy(test, Bench{Meter: pocket, Noise: true}, scale, 10), machine.noisy(test, b, scale, 10))
	}
	scale.Counts = 2
	first := machine.noisy(test, Bench{Meter: pocket, Noise: true}, scale, 10)
	require.NotEqual(t, first, machine.noisy(test, Bench{Meter: pocket, Noise: true, Take: 1}, scale, 10))
}

func TestDisplaysThatAreNoNumber(t *testing.T) {
	flat := usual(t, "start", "battery.flat")
	s, err := flat.Shows(testOf(t, flat, "starter"), Bench{Meter: pocket, Noise: true})
	require.NoError(t, err)
	require.Equal(t, measure.Flicker, s.Reading.Kind)

	open := usual(t, "start", "coil.open")
	s, err = open.Shows(testOf(t, open, "coil_ohms"), Bench{Meter: pocket})
	require.NoError(t, err)
	require.Equal(t, measure.OverRange, s.Reading.Kind)
	require.Equal(t, "OL", s.Reading.Text)

	_, err = open.Shows(testOf(t, open, "amps"), Bench{Meter: pocket})
	var scale *measure.ScaleError
	require.ErrorAs(t, err, &scale, "a meter without a clamp")
}

func TestAMeterOfOneMegohmPullsAGhostDown(t *testing.T) {
	machine := usual(t, "start")
	test := testOf(t, machine, "ghost")
	show := func(m measure.Meter) float64 {
		s, err := machine.Shows(test, Bench{Meter: m})
		require.NoError(t, err)
		return s.Reading.Value
	}
	// testdata/circuits/ghosts.csv, the row of 20 Mohm.
	require.Equal(t, 4.23, show(bench))
	require.Equal(t, 0.611, show(pocket))
}

func TestSlipsComeAsOftenAsTheyShould(t *testing.T) {
	maker := makerOf(t, "start")
	slipped, changed := 0, 0
	const machines = 2000
	for number := range machines {
		machine := build(t, maker, Draw{Number: number, Usual: true})
		for _, id := range []string{"starter", "coil_ohms", "sound"} {
			test := testOf(t, machine, id)
			s, err := machine.Shows(test, Bench{Meter: pocket, Slips: 0.05})
			require.NoError(t, err)
			if !s.Slipped {
				continue
			}
			slipped++
			right, err := machine.Shows(test, Bench{Meter: pocket})
			require.NoError(t, err)
			if s.Reading != right.Reading || s.Choice != right.Choice {
				changed++
			}
		}
	}
	require.InDelta(t, 0.05*3*machines, slipped, 90) // five standard deviations
	require.Greater(t, changed, slipped/2, "most slips show")
}

// Whether a test can be taken is a matter of the machine: trying again does not
// help, and a share of none leaves nothing out.
func TestATestThatCantBeTakenStaysSo(t *testing.T) {
	maker := makerOf(t, "start")
	out := 0
	const machines, share = 400, 0.25
	for number := range machines {
		machine := build(t, maker, Draw{Number: number})
		test := testOf(t, machine, "starter")
		_, first := machine.Shows(test, Bench{Meter: pocket, Untaken: share})
		_, again := machine.Shows(test, Bench{Meter: pocket, Untaken: share, Take: 1})
		require.Equal(t, first, again)
		_, whole := machine.Shows(test, Bench{Meter: pocket})
		require.NoError(t, whole)
		var cant *Untaken
		if errors.As(first, &cant) {
			out++
		}
	}
	require.InDelta(t, share*machines, out, 4*math.Sqrt(machines*share*(1-share)), "within four standard deviations")
}
