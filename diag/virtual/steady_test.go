package virtual

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// What meters show of drawn chargers, of every kind and with every fault, is what
// following the circuit for many more cycles with many more steps comes to.
func TestChargersReadAsTheyDoWhenFollowedForLong(t *testing.T) {
	if raced {
		t.Skip("the race detector takes minutes for it; nothing runs beside here")
	}
	maker, meter := shipped(t, "button-start-pack")
	kinds := map[string]int{}
	draws := []Draw{{Seed: 1, Number: 6}} // four diodes
	for number := range 6 {
		draws = append(draws, Draw{Seed: 2, Number: number}, Draw{
			Number: number, Faults: []string{"charger.weak"}, Ways: map[string]string{"charger.weak": "one diode of four"},
		})
	}
	for _, fault := range maker.circuit.Faults {
		if strings.HasPrefix(fault.Fault, "charger.") {
			draws = append(draws, Draw{Seed: 3, Faults: []string{fault.Fault}})
		}
	}
	for _, d := range draws {
		machine := build(t, maker, d)
		for _, test := range maker.sys.Tests {
			followedForLong(t, machine, test, meter, kinds)
		}
	}
	for _, kind := range []string{"one diode", "four diodes", "four and a capacitor"} {
		require.Greater(t, kinds[kind], 5, kind)
	}
}

func followedForLong(t *testing.T, m *Machine, test *tree.Test, meter measure.Meter, kinds map[string]int) {
	t.Helper()
	if test.Kind != tree.Metered || m.maker.reads[test.ID] != nil || !m.maker.touches(test) {
		return
	}
	s, err := m.in(test.State, test.With)
	require.NoError(t, err)
	a, b := m.probed(s, test.Red, test.Black)
	if a == nil || !s.followed(a) && !s.followed(b) {
		return
	}
	scale, err := m.maker.scale(meter, test.Function, 1)
	var none *measure.ScaleError
	if errors.As(err, &none) {
		return
	}
	require.NoError(t, err)
	as := "volts"
	if test.Function == measure.DCAmps {
		as = "amps"
	}
	for _, with := range []instrument{ideal(test.Function), instrumentOf(meter, scale)} {
		j := m.joined(s, a, b, test.Red, test.Black, with.input, as)
		before := m.maker.counts.Followed
		waves, err := m.maker.follow(j.net, j.hertz, j.key)
		require.NoError(t, err)
		require.LessOrEqual(t, m.maker.counts.Followed, before+1, "it comes to repeat itself")
		c, err := j.build(true)
		require.NoError(t, err)
		long, err := c.Follow(circuit.Run{Hertz: j.hertz, Settle: 120, Keep: 1, Steps: 400})
		require.NoError(t, err)
		kinds[m.Word("behind")]++
		if as == "amps" {
			same(t, long.Through(meterPart), waves.Through(meterPart), test.ID)
		} else {
			same(t, long.Between(test.Red, test.Black), waves.Between(test.Red, test.Black), test.ID)
		}
	}
}

// same asserts that two waves are so to a meter: a thousandth of what is there, and
// a tenth of a millivolt.
func same(t *testing.T, want, got circuit.Wave, what string) {
	t.Helper()
	most := 1e-3*math.Max(want.RMS, got.RMS) + 1e-4
	for _, pair := range [...][2]float64{{want.Mean, got.Mean}, {want.RMS, got.RMS}, {want.Average, got.Average}, {want.True, got.True}} {
		require.InDelta(t, pair[0], pair[1], most, "%s: %+v, not %+v", what, got, want)
	}
}
