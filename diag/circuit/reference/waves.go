package reference

import "benchlead/diag/circuit"

// Moving is a circuit that is followed in time.
type Moving struct {
	Name   string
	Says   string
	Ground string
	Parts  []circuit.Part
	Run    circuit.Run
	// Volts are pairs of nodes, Amps parts, whose waves are compared.
	Volts [][2]string
	Amps  []string
}

const insulation = 10e6 // of a winding against the frame, ohm; common practice

// Chargers and stators, 60 Hz from the mains and 360 Hz at 3600 rpm with six
// pairs of poles. EMF and resistance are chosen so that outputs come out as
// published for the trade: half-wave 14 V and regulated 28 V at 3600 rpm.
var (
	mains  = circuit.Run{Hertz: 60, Settle: 20, Keep: 6, Steps: 2000}
	stator = circuit.Run{Hertz: 360, Settle: 20, Keep: 6, Steps: 4000}
)

// HalfWave is a charger of 16.4 V behind 6 ohm and one diode, on a battery of
// 12.4 V behind 50 milliohm.
func HalfWave() Moving {
	return Moving{
		Name: "charger-half", Says: "half-wave charger on a battery", Ground: "BN", Run: mains,
		Parts: append(halfWave("BP", "BN"), circuit.EMF{Name: "battery", Plus: "BP", Minus: "BN", Volts: 12.4, Ohms: 0.05}),
		Volts: [][2]string{{"BP", "BN"}, {"SA", "BN"}}, Amps: []string{"battery", "secondary"},
	}
}

// halfWave is the charger without what is connected to it.
func halfWave(plus, minus string) []circuit.Part {
	return []circuit.Part{
		circuit.Winding{Name: "secondary", From: "SA", To: minus, RMS: 16.4, Hertz: 60, Ohms: 6},
		diode("diode", "SA", "DO"),
		wire("DO", plus, 0.1),
	}
}

// Moves are the circuits that are compared in time.
func Moves() []Moving {
	return []Moving{HalfWave(), halfWaveLoad(), filtered(), statorHalf(), statorBridge()}
}

func halfWaveLoad() Moving {
	return Moving{
		Name: "charger-half-load", Says: "half-wave charger on 2 kilohm and the capacitance of leads", Ground: "N", Run: mains,
		Parts: append(halfWave("P", "N"),
			circuit.Resistor{Name: "load", From: "P", To: "N", Ohms: 2000},
			circuit.Capacitor{Name: "leads", From: "P", To: "N", Farads: 100e-12}),
		Volts: [][2]string{{"P", "N"}}, Amps: []string{"secondary", "load"},
	}
}

func filtered() Moving {
	parts := append(bridge("SA", "SB", "DO", "N"),
		circuit.Winding{Name: "secondary", From: "SA", To: "SB", RMS: 11.5, Hertz: 60, Ohms: 2},
		circuit.Resistor{Name: "insulation", From: "SB", To: "N", Ohms: insulation},
		circuit.Capacitor{Name: "filter", From: "DO", To: "N", Farads: 2200e-6, Ohms: 0.1},
		circuit.Resistor{Name: "bleed", From: "DO", To: "N", Ohms: 4700},
		wire("DO", "P", 0.1),
		circuit.Resistor{Name: "load", From: "P", To: "N", Ohms: 30},
	)
	return Moving{
		Name: "charger-filtered", Says: "bridge, 2200 microfarad, 30 ohm", Ground: "N", Run: mains, Parts: parts,
		Volts: [][2]string{{"P", "N"}, {"SA", "SB"}}, Amps: []string{"secondary", "load", "filter"},
	}
}

func statorHalf() Moving {
	return Moving{
		Name: "stator-half", Says: "stator of 31 V at 3600 rpm, one diode, on 13.5 V", Ground: "BN", Run: stator,
		Parts: []circuit.Part{
			circuit.Winding{Name: "stator", From: "AC", To: "BN", RMS: 31, Hertz: 360, Ohms: 1, Henries: 3e-3},
			diode("diode", "AC", "RO"),
			wire("RO", "BP", 0.1),
			circuit.EMF{Name: "battery", Plus: "BP", Minus: "BN", Volts: 13.5, Ohms: 0.05},
		},
		Volts: [][2]string{{"BP", "BN"}, {"AC", "BN"}}, Amps: []string{"battery", "stator"},
	}
}

func statorBridge() Moving {
	parts := append(bridge("A1", "A2", "RO", "BN"),
		circuit.Winding{Name: "stator", From: "A1", To: "A2", RMS: 28, Hertz: 360, Ohms: 0.45, Henries: 0.8e-3},
		circuit.Resistor{Name: "insulation", From: "A2", To: "BN", Ohms: insulation},
		wire("RO", "BP", 0.03),
		circuit.EMF{Name: "battery", Plus: "BP", Minus: "BN", Volts: 14.4, Ohms: 0.03},
	)
	return Moving{
		Name: "stator-bridge", Says: "stator of 28 V at 3600 rpm, bridge, on 14.4 V", Ground: "BN", Run: stator, Parts: parts,
		Volts: [][2]string{{"BP", "BN"}, {"A1", "A2"}}, Amps: []string{"battery", "stator"},
	}
}

// bridge is four diodes from two alternating nodes to plus and minus.
func bridge(a, b, plus, minus string) []circuit.Part {
	return []circuit.Part{
		diode("diode a+", a, plus), diode("diode b+", b, plus),
		diode("diode a-", minus, a), diode("diode b-", minus, b),
	}
}

func diode(name, anode, cathode string) circuit.Diode {
	return circuit.Diode{Name: name, Anode: anode, Cathode: cathode, Ohms: 0.02}
}
