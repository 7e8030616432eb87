package circuit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
)

// A blade fuse carries 110 % of its rating for ever and opens at 135 % (SAE J1284,
// ISO 8820-3): at rest by its amps, in time by their RMS.
func TestAFuseOpensAtMoreThan135Percent(t *testing.T) {
	fuse := circuit.Fuse{Name: "fuse", From: "a", To: "p", Rating: 10, Ohms: .005}
	for amps, blown := range map[float64]bool{11: false, 13.4: false, 13.6: true} {
		load := joint("load", "p", "0", 12/amps-fuse.Ohms)
		s, err := circuitOf(t, "0", []circuit.Part{circuit.EMF{Name: "b", Plus: "a", Minus: "0", Volts: 12}, fuse, load}).Solve()
		require.NoError(t, err)
		require.Equal(t, blown, s.Phases[0].Blown("fuse"), "%v A", amps)
		w, err := circuitOf(t, "0", []circuit.Part{circuit.Winding{Name: "w", From: "a", To: "0", RMS: 12, Hertz: 60}, fuse, load}).
			Follow(circuit.Run{Hertz: 60, Settle: 1, Keep: 1, Steps: 100})
		require.NoError(t, err)
		require.Equal(t, blown, w.Blown("fuse"), "%v A", amps)
		if blown {
			require.InDelta(t, 0, w.Through("load").RMS, 1e-9)
		} else {
			require.InEpsilon(t, amps, w.Through("load").RMS, 1e-3)
		}
	}
}

// Amps of a battery of 12 or 9 V behind 50 milliohm, by Ohm's law.
func TestElectronicsOpenByAmpsAndByVolts(t *testing.T) {
	for _, c := range []struct {
		volts, load, amps float64 // 0 amps: open
	}{
		{12, .10, 0}, // 70.6 A
		{12, .11, 12 / .18},
		{9, .30, 0}, // 7.78 V at 24.3 A
		{9, .50, 9 / .57},
	} {
		s, err := circuitOf(t, "0", []circuit.Part{
			circuit.EMF{Name: "cells", Plus: "a", Minus: "0", Volts: c.volts, Ohms: .05},
			circuit.Electronics{Name: "guard", From: "a", To: "p", Sense: "0", Ohms: .02, MostAmps: 70, LeastVolts: 8.1},
			joint("load", "p", "0", c.load),
		}).Solve()
		require.NoError(t, err)
		require.Equal(t, c.amps == 0, s.Phases[0].Tripped("guard"), "%+v", c)
		require.InDelta(t, c.amps, s.Phases[0].Amps("load"), 1e-6, "%+v", c)
	}
}

// A charger that must see a battery gives nothing without one, and its limit with
// one: 13 V against 12 V over 0.15 ohm would be 6.7 A.
func TestASupplyWakesByTheVoltsItSees(t *testing.T) {
	supply := circuit.Supply{Name: "supply", Plus: "p", Minus: "0", Volts: 13, Ohms: .1, Amps: 2, Wakes: 5}
	for volts, amps := range map[float64]float64{0: 0, 4.9: 0, 12: 2, 12.9: .1 / .15, 14: 0} {
		s, err := circuitOf(t, "0", []circuit.Part{
			supply, circuit.EMF{Name: "battery", Plus: "p", Minus: "0", Volts: volts, Ohms: .05},
		}).Solve()
		require.NoError(t, err)
		require.InDelta(t, amps, -s.Phases[0].Amps("supply"), 1e-6, "%v V", volts)
	}
}
