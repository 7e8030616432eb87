package circuit_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
)

// closely asserts that two waves are the same to a meter: a thousandth of what is
// there, and a tenth of a millivolt.
func closely(t *testing.T, want, got circuit.Wave, what string) {
	t.Helper()
	most := 1e-3*math.Max(want.RMS, got.RMS) + 1e-4
	require.InDelta(t, want.Mean, got.Mean, most, "mean of %s", what)
	require.InDelta(t, want.RMS, got.RMS, most, "rms of %s", what)
	require.InDelta(t, want.Average, got.Average, most, "average of %s", what)
	require.InDelta(t, want.True, got.True, most, "true rms of %s", what)
	require.InDelta(t, want.Cheap, got.Cheap, 2.23*most, "cheap range on %s", what)
}

// The same as following the circuit for many more cycles, with many more steps,
// for every kind of charger, fault and load.
func TestSteadyIsWhatFollowingComesTo(t *testing.T) {
	loads := map[string][]circuit.Part{
		"open": nil, "50 ohm": {joint("load", "P", "0", 50)},
		"battery":          {circuit.EMF{Name: "battery", Plus: "P", Minus: "0", Volts: 12.4, Ohms: .05}},
		"battery reversed": {circuit.EMF{Name: "battery", Plus: "P", Minus: "0", Volts: -12.4, Ohms: .05}},
		"lamp":             {circuit.Lamp{Name: "lamp", From: "P", To: "0", Volts: 12, Watts: 10}},
	}
	for kind := range kinds {
		for fault, put := range chargerFaults {
			for load, parts := range loads {
				c := kinds[kind]
				put(&c)
				is := circuitOf(t, "0", c.parts(append(meterLeads(), parts...)...))
				long, err := is.Follow(circuit.Run{Hertz: 60, Settle: 60, Keep: 1, Steps: 480})
				require.NoError(t, err)
				steady, err := is.Steady(circuit.Run{Hertz: 60, Settle: 20, Keep: 1, Steps: 160})
				require.NoError(t, err)
				name := fmt.Sprintf("%s, %s, %s", kind, fault, load)
				require.NotNil(t, steady, name)
				closely(t, long.Between("P", "0"), steady.Between("P", "0"), "volts: "+name)
				closely(t, long.Between("0", "A"), steady.Between("0", "A"), "secondary volts: "+name)
				closely(t, long.Through("secondary"), steady.Through("secondary"), "amps: "+name)
			}
		}
	}
}

// Circuits with coils too, as they are held against another program: here with the
// same steps, so that only the way to the steady state differs.
func TestSteadyOfTheReferenceCircuits(t *testing.T) {
	for _, m := range reference.Moves() {
		is := circuitOf(t, m.Ground, m.Parts)
		run := circuit.Run{Hertz: m.Run.Hertz, Settle: 60, Keep: 1, Steps: 400}
		long, err := is.Follow(run)
		require.NoError(t, err)
		steady, err := is.Steady(run)
		require.NoError(t, err)
		require.NotNil(t, steady, m.Name)
		for _, v := range m.Volts {
			closely(t, long.Between(v[0], v[1]), steady.Between(v[0], v[1]), m.Name+" "+v[0])
		}
		for _, a := range m.Amps {
			closely(t, long.Through(a), steady.Through(a), m.Name+" "+a)
		}
	}
}

// Ten seconds of a filter that only its bleed empties, and a coil whose current
// lives on for as long: the first cycles say nothing of the last.
func TestSteadyOfWhatIsSlow(t *testing.T) {
	filter := kinds["filtered"]
	filter.ohms = 40
	for name, parts := range map[string][]circuit.Part{
		"filter": filter.parts(meterLeads()...),
		"coil": {
			circuit.Winding{Name: "secondary", From: "A", To: "0", RMS: 12, Hertz: 60, Ohms: .5, Henries: 1},
			circuit.EMF{Name: "battery", Plus: "A", Minus: "P", Volts: 2, Ohms: .1},
			joint("load", "P", "0", .1),
		},
	} {
		is := circuitOf(t, "0", parts)
		run := circuit.Run{Hertz: 60, Settle: 2000, Keep: 1, Steps: 160}
		long, err := is.Follow(run)
		require.NoError(t, err)
		run.Settle = 20
		steady, err := is.Steady(run)
		require.NoError(t, err)
		require.NotNil(t, steady, name)
		closely(t, long.Between("P", "0"), steady.Between("P", "0"), name)
		closely(t, long.Through("secondary"), steady.Through("secondary"), name)
	}
}

// A fuse that the cycle melts is open in the one that is kept.
func TestSteadyMeltsFuses(t *testing.T) {
	for _, rating := range []float64{1, 10} {
		w, err := circuitOf(t, "0", []circuit.Part{
			circuit.Winding{Name: "secondary", From: "A", To: "0", RMS: 12, Hertz: 60, Ohms: 1},
			circuit.Fuse{Name: "fuse", From: "A", To: "P", Rating: rating, Ohms: .01},
			joint("load", "P", "0", 3),
		}).Steady(circuit.Run{Hertz: 60, Settle: 10, Keep: 1, Steps: 100})
		require.NoError(t, err)
		require.Equal(t, rating < 2, w.Blown("fuse"))
		require.Equal(t, rating < 2, w.Through("load").RMS < 1e-6)
	}
}

// There is no steady state without a common cycle, nor one that is found at once.
func TestSteadyOfWhatDoesNotRepeatItself(t *testing.T) {
	parts := []circuit.Part{
		circuit.Winding{Name: "mains", From: "A", To: "0", RMS: 12, Hertz: 60, Ohms: 1},
		circuit.Winding{Name: "stator", From: "P", To: "A", RMS: 12, Hertz: 75, Ohms: 1},
		joint("load", "P", "0", 3),
	}
	w, err := circuitOf(t, "0", parts).Steady(circuit.Run{Hertz: 60, Settle: 20, Keep: 1, Steps: 160})
	require.NoError(t, err)
	require.Nil(t, w)
	w, err = circuitOf(t, "0", parts).Steady(circuit.Run{Hertz: 15, Settle: 20, Keep: 1, Steps: 600})
	require.NoError(t, err)
	require.NotNil(t, w)
	w, err = circuitOf(t, "0", kinds["filtered"].parts(meterLeads()...)).Steady(circuit.Run{Hertz: 60, Settle: 1, Keep: 1, Steps: 160})
	require.NoError(t, err)
	require.Nil(t, w)
	_, err = circuitOf(t, "0", parts).Steady(circuit.Run{})
	var bad *circuit.BadPart
	require.ErrorAs(t, err, &bad)
}
