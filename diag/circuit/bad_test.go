package circuit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
)

func TestAPartThatMakesNoSenseIsNamed(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := joint("good", "a", "0", 1)
	for name, part := range map[string]circuit.Part{
		"nil":                   nil,
		"a pointer":             &circuit.Resistor{Name: "x", From: "a", To: "0", Ohms: 1},
		"a nil pointer":         (*circuit.Resistor)(nil),
		"no name":               joint("", "a", "0", 1),
		"a name twice":          joint("good", "a", "0", 1),
		"no node":               joint("x", "a", "", 1),
		"resistor of NaN":       joint("x", "a", "0", nan),
		"resistor below zero":   joint("x", "a", "0", -1),
		"source of NaN":         circuit.EMF{Name: "x", Plus: "a", Minus: "0", Volts: nan},
		"source without end":    circuit.EMF{Name: "x", Plus: "a", Minus: "0", Volts: inf},
		"wire of no gauge":      circuit.Wire{Name: "x", From: "a", To: "0", AWG: nan, Metres: 1, Celsius: 20},
		"wire molten":           circuit.Wire{Name: "x", From: "a", To: "0", AWG: 6, Metres: 1, Celsius: 1100},
		"wire endless":          circuit.Wire{Name: "x", From: "a", To: "0", AWG: 6, Metres: inf, Celsius: 20},
		"switch leaks backward": circuit.Switch{Name: "x", From: "a", To: "0", Leak: -1},
		"fuse of nothing":       circuit.Fuse{Name: "x", From: "a", To: "0"},
		"relay without gap":     circuit.Relay{Name: "x", From: "a", To: "0", CoilFrom: "a", CoilTo: "0", CoilOhms: 4, PullIn: 1, DropOut: 1},
		"relay welded, stuck":   circuit.Relay{Name: "x", From: "a", To: "0", CoilFrom: "a", CoilTo: "0", CoilOhms: 4, PullIn: 1, Welded: true, Stuck: true},
		"relay of NaN":          circuit.Relay{Name: "x", From: "a", To: "0", CoilFrom: "a", CoilTo: "0", CoilOhms: 4, PullIn: nan},
		"motor of no ohms":      circuit.Motor{Name: "x", Plus: "a", Minus: "0", Ke: 1, Viscous: 1},
		"motor of no load":      circuit.Motor{Name: "x", Plus: "a", Minus: "0", Ohms: 1, Ke: 1},
		"diode of NaN":          circuit.Diode{Name: "x", Anode: "a", Cathode: "0", Saturation: nan},
		"lamp of no volts":      circuit.Lamp{Name: "x", From: "a", To: "0", Watts: 21},
		"supply below zero":     circuit.Supply{Name: "x", Plus: "a", Minus: "0", Volts: -1},
		"winding of NaN":        circuit.Winding{Name: "x", From: "a", To: "0", RMS: nan},
		"capacitor endless":     circuit.Capacitor{Name: "x", From: "a", To: "0", Farads: inf},
		"electronics blind":     circuit.Electronics{Name: "x", From: "a", To: "0", LeastVolts: 8},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := circuit.New("0", good, part)
			var bad *circuit.BadPart
			require.ErrorAs(t, err, &bad)
			require.NotEmpty(t, bad.Why)
		})
	}
	var bad *circuit.BadPart
	_, err := circuit.New("", good)
	require.ErrorAs(t, err, &bad)
	_, err = circuit.New("0")
	require.ErrorAs(t, err, &bad)
}

func TestANodeWithoutAWayIsNamed(t *testing.T) {
	_, err := circuit.New("0", joint("good", "a", "0", 1), joint("island", "p", "q", 1))
	var floating *circuit.Floating
	require.ErrorAs(t, err, &floating)
	require.Equal(t, "p", floating.Node)

	// An electronics' sense looks, and is no way.
	_, err = circuit.New("0", circuit.Electronics{Name: "e", From: "a", To: "0", Sense: "s", LeastVolts: 8})
	require.ErrorAs(t, err, &floating)
	require.Equal(t, "s", floating.Node)
}

// Behind an open switch that leaks nothing a node still has its volts, if none
// that mean anything.
func TestANodeBehindAnOpenSwitchIsSolved(t *testing.T) {
	c := circuitOf(t, "0", []circuit.Part{
		circuit.EMF{Name: "b", Plus: "a", Minus: "0", Volts: 12},
		circuit.Switch{Name: "s", From: "a", To: "p"},
		joint("r", "p", "q", 1),
	})
	s, err := c.Solve()
	require.NoError(t, err)
	require.InDelta(t, 0, s.Phases[0].Metered("q", "0", 10e6), 1e-9)
}

func TestSourcesThatFightAreToldAndSuchThatAgreeAreNot(t *testing.T) {
	pair := func(one, two float64) error {
		_, err := circuitOf(t, "0", []circuit.Part{
			circuit.EMF{Name: "one", Plus: "a", Minus: "0", Volts: one},
			circuit.EMF{Name: "two", Plus: "a", Minus: "0", Volts: two},
			joint("load", "a", "0", 10),
		}).Solve()
		return err
	}
	var fight *circuit.Contradiction
	require.ErrorAs(t, pair(12, 11), &fight)
	require.Equal(t, "a", fight.Node)
	require.NoError(t, pair(12, 12))

	// A dead short over an ideal source, by a contact and by a wire.
	for _, short := range []circuit.Part{circuit.Switch{Name: "s", From: "a", To: "0", Closed: true}, joint("s", "a", "0", 0)} {
		_, err := circuitOf(t, "0", []circuit.Part{circuit.EMF{Name: "b", Plus: "a", Minus: "0", Volts: 12}, short}).Solve()
		require.ErrorAs(t, err, &fight, "%T", short)
	}
}

// A contact of 0 ohm, a loop of such, and a part with both ends on one node.
func TestNoOhmsAreNoTrouble(t *testing.T) {
	s, err := circuitOf(t, "0", []circuit.Part{
		circuit.EMF{Name: "b", Plus: "a", Minus: "0", Volts: 12, Ohms: 1},
		circuit.Switch{Name: "s", From: "a", To: "p", Closed: true},
		joint("w", "a", "p", 0), joint("v", "a", "p", 0),
		joint("self", "p", "p", 0), joint("load", "p", "0", 5),
	}).Solve()
	require.NoError(t, err)
	require.InDelta(t, 10, s.Phases[0].Volts("p"), 1e-5)
	require.InDelta(t, 2, s.Phases[0].Amps("load"), 1e-5)
}

func TestUnknownNamesGiveNothing(t *testing.T) {
	c := circuitOf(t, "0", []circuit.Part{circuit.EMF{Name: "b", Plus: "a", Minus: "0", Volts: 12, Ohms: 1}})
	s, err := c.Solve()
	require.NoError(t, err)
	p := s.Phases[0]
	volts, ohms := p.Thevenin("a", "?")
	for _, v := range []float64{
		p.Volts("?"), p.Across("a", "?"), p.Amps("?"), p.CoilAmps("?"), p.CoilAmps("b"), p.Speed("?"), p.Speed("b"),
		p.Metered("?", "a", 1e7), p.Metered("a", "0", 0), p.Metered("a", "0", math.NaN()), volts, ohms,
	} {
		require.True(t, math.IsNaN(v), "%v", v)
	}
	require.False(t, p.Closed("b") || p.Blown("?") || p.Tripped("b"))
	w, err := c.Follow(circuit.Run{Hertz: 60, Keep: 1, Steps: 4})
	require.NoError(t, err)
	require.True(t, math.IsNaN(w.Between("a", "?").Mean))
	require.True(t, math.IsNaN(w.Through("?").Mean))
	require.False(t, w.Blown("?"))
}

func TestARunThatMakesNoSenseIsTold(t *testing.T) {
	c := circuitOf(t, "0", []circuit.Part{circuit.EMF{Name: "b", Plus: "a", Minus: "0", Volts: 12, Ohms: 1}})
	for _, r := range []circuit.Run{
		{},
		{Hertz: math.NaN(), Keep: 1, Steps: 10},
		{Hertz: math.Inf(1), Keep: 1, Steps: 10},
		{Hertz: 60, Keep: 0, Steps: 10},
		{Hertz: 60, Settle: -1, Keep: 1, Steps: 10},
		{Hertz: 60, Keep: 1, Steps: 3},
		{Hertz: 60, Keep: 1 << 30, Steps: 1 << 30},
		{Hertz: 60, Settle: math.MaxInt, Keep: 1, Steps: 10},
		{Hertz: 1e-320, Keep: 1, Steps: 4},
	} {
		_, err := c.Follow(r)
		var bad *circuit.BadPart
		require.ErrorAs(t, err, &bad, "%+v", r)
	}
}
