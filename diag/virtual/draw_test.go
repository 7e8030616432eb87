package virtual

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/tree"
)

// answers are all answers of a machine, in the order of the tests.
func answers(t require.TestingT, m *Machine) []Answer {
	var out []Answer
	for _, test := range m.maker.sys.Tests {
		a, err := m.Answer(test)
		var cant *Unanswered
		if !errors.As(err, &cant) {
			require.NoError(t, err, test.ID)
		}
		out = append(out, a)
	}
	return out
}

func TestSameDrawSameMachine(t *testing.T) {
	d := Draw{Seed: 7, Number: 12, Faults: []string{"cable.ground"}, Shift: 0.1}
	one, other := build(t, makerOf(t, "start"), d), build(t, makerOf(t, "start"), d)
	require.Equal(t, answers(t, one), answers(t, other))
	require.Equal(t, one.Drawn(), drawnOn(other, one))
	d.Number++
	require.NotEqual(t, answers(t, one), answers(t, build(t, makerOf(t, "start"), d)))
	d.Number, d.Seed = 12, 8
	require.NotEqual(t, answers(t, one), answers(t, build(t, makerOf(t, "start"), d)))
}

// drawnOn are the values of a machine, told of the other's system.
func drawnOn(m, other *Machine) []Drawn {
	out := m.Drawn()
	for i, d := range other.Drawn() {
		out[i].Value = d.Value
	}
	return out
}

func TestAFaultLeavesTheOtherPartsAlone(t *testing.T) {
	maker := makerOf(t, "start")
	for number := range 20 {
		healthy := build(t, maker, Draw{Number: number})
		faulty := build(t, maker, Draw{Number: number, Faults: []string{"cable.ground"}})
		for i, s := range maker.slots {
			name := maker.parts[s.of].ID + "." + s.what
			if name == "ground_cable.ohms" {
				require.Greater(t, faulty.row[i], healthy.row[i]+0.04)
			} else if s.what != "when" {
				require.Equal(t, healthy.row[i], faulty.row[i], name)
			}
		}
	}
}

func TestTheOrderOfTheFileDoesNotMatter(t *testing.T) {
	lib := library(t)
	sys := *lib.Systems["start"]
	turned := *sys.Circuit
	turned.Parts, turned.Faults = slices.Clone(turned.Parts), slices.Clone(turned.Faults)
	slices.Reverse(turned.Parts)
	slices.Reverse(turned.Faults)
	sys.Circuit = &turned
	maker, err := NewMaker(&sys, Conditions{Celsius: 20})
	require.NoError(t, err)
	d := Draw{Seed: 1, Number: 4, Faults: []string{"cable.positive"}}
	one, other := build(t, makerOf(t, "start"), d), build(t, maker, d)
	for _, part := range turned.Parts {
		for what := range part.Numbers {
			a, err := one.Quantity(part.ID+"."+what, "off")
			require.NoError(t, err)
			b, err := other.Quantity(part.ID+"."+what, "off")
			require.NoError(t, err)
			require.Equal(t, a, b, "%s.%s", part.ID, what)
		}
	}
}

func TestAStateIsSolvedOnce(t *testing.T) {
	maker := makerOf(t, "start")
	machine := build(t, maker, Draw{})
	for range 2 {
		for _, test := range []string{"posts", "starter", "positive", "ground", "amps", "sound"} {
			answerOf(t, machine, test)
		}
	}
	require.Equal(t, 1, maker.Counts().Solved)
	answerOf(t, machine, "rest")
	require.Equal(t, 2, maker.Counts().Solved)
	require.NoError(t, machine.Do("recharge"))
	answerOf(t, machine, "rest")
	require.Equal(t, 3, maker.Counts().Solved, "more charge is another circuit")
}

func TestTolerances(t *testing.T) {
	maker := makerOf(t, "start")
	var cable, coil []float64
	words := map[string]int{}
	for number := range 2000 {
		m := build(t, maker, Draw{Number: number})
		v, ok := m.Value("cable")
		require.True(t, ok)
		cable = append(cable, v)
		ohms, err := m.Quantity("solenoid.coil_ohms", "off")
		require.NoError(t, err)
		coil = append(coil, ohms)
		words[m.Word("maker")]++
	}
	// The mean of a triangular distribution is a third of its three corners.
	require.InDelta(t, (1e-3+2e-3+4e-3)/3, mean(cable), 5e-5)
	require.GreaterOrEqual(t, slices.Min(cable), 1e-3)
	require.LessOrEqual(t, slices.Max(cable), 4e-3)
	require.InDelta(t, 4, mean(coil), 0.02)
	require.GreaterOrEqual(t, slices.Min(coil), 3.6) // 10 % either way
	require.LessOrEqual(t, slices.Max(coil), 4.4)
	require.InDelta(t, 1500, words["one"], 80) // three to one
}

func mean(values []float64) float64 {
	var sum float64
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

func TestShiftMovesWhatIsNotFirmAndNothingTwice(t *testing.T) {
	maker := makerOf(t, "start")
	signs := map[float64]bool{}
	for number := range 40 {
		plain := build(t, maker, Draw{Number: number})
		moved := build(t, maker, Draw{Number: number, Shift: 0.15})
		for _, c := range []struct {
			what string
			firm bool
		}{
			{"ground_cable.ohms", false}, {"bond.ohms", false}, {"motor.ke", false}, {"battery.volts", true},
		} {
			a, err := plain.Quantity(c.what, "off")
			require.NoError(t, err)
			b, err := moved.Quantity(c.what, "off")
			require.NoError(t, err)
			if c.firm {
				require.Equal(t, a, b, c.what)
				continue
			}
			require.InDelta(t, 0.15, math.Abs(b/a-1), 1e-9, c.what)
			signs[math.Round(100*(b/a-1))] = true
		}
	}
	require.Equal(t, map[float64]bool{15: true, -15: true}, signs)
}

func TestTheLabelIsHeard(t *testing.T) {
	lib := library(t)
	for amps, label := range map[float64]map[string]float64{20: nil, 15: {"fuse_amps": 15}} {
		maker, err := NewMaker(lib.Systems["start"], Conditions{Celsius: 20, Label: label})
		require.NoError(t, err)
		got, err := build(t, maker, Draw{Usual: true}).Quantity("fuse.amps", "off")
		require.NoError(t, err)
		require.Equal(t, amps, got)
	}
}

func TestAnyMachineAnswers(t *testing.T) {
	makers := map[string]*Maker{"start": makerOf(t, "start"), "charger": makerOf(t, "charger")}
	rapid.Check(t, func(t *rapid.T) {
		maker := makers[rapid.SampledFrom([]string{"start", "start", "start", "charger"}).Draw(t, "system")]
		ids := func(f *tree.Fault) string { return f.ID }
		faults := rapid.SliceOfNDistinct(rapid.SampledFrom(maker.sys.Faults), 0, 3, ids).Draw(t, "faults")
		d := Draw{Number: rapid.IntRange(0, 1<<20).Draw(t, "number"), Shift: rapid.Float64Range(0, 0.2).Draw(t, "shift")}
		for _, f := range faults {
			d.Faults = append(d.Faults, f.ID)
		}
		machine, err := maker.Build(d)
		require.NoError(t, err)
		for _, a := range answers(t, machine) {
			require.False(t, math.IsNaN(a.Value))
			require.LessOrEqual(t, a.Low, a.High)
		}
		_, err = machine.Complaint()
		require.NoError(t, err)
		_, err = machine.Present()
		require.NoError(t, err)
	})
}

// In a world twice as wide machines differ more, by ratio: what lay between half
// and twice the usual lies between a quarter and four times. What is firm keeps
// its limits.
func TestAWiderWorldDiffersMore(t *testing.T) {
	require.Equal(t, span{usual: 2, from: 0.5, to: 8}, span{usual: 2, from: 1, to: 4}.wider(2))
	require.Equal(t, span{usual: 0, from: -1, to: 1}, span{usual: 0, from: -1, to: 1}.wider(2), "no ratio to go by")
	require.Equal(t, span{usual: 2, from: 1, to: 4}, span{usual: 2, from: 1, to: 4}.wider(0))

	maker := makerOf(t, "start")
	spread := func(wide float64) (values, quantities float64) {
		for number := range 200 {
			m := build(t, maker, Draw{Number: number, Wide: wide})
			for i := range maker.values {
				v := &maker.values[i]
				if s := v.span; !v.Firm && len(v.Words) == 0 && v.always && s.to > s.from {
					values += math.Abs(m.numbers[i]/s.usual - 1)
				}
			}
			for _, by := range m.tolerance {
				quantities += math.Abs(by - 1)
			}
		}
		return values, quantities
	}
	values, quantities := spread(0)
	wideValues, wideQuantities := spread(1.8)
	require.Greater(t, wideValues, 1.5*values)
	require.Greater(t, wideQuantities, 1.5*quantities)
}
