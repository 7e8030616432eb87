package virtual

import (
	"benchlead/diag/circuit"
	"benchlead/diag/tree"
)

// A part's quantities stand in one row: its numbers, its yes-or-no ones as 1 and
// 0, and at the end whether it is there. kinds says in which order.

// kindOf is what a kind of part has.
type kindOf struct {
	numbers []string
	yesNo   []string
	// build makes the part from its row.
	build func(p *tree.CircuitPart, q []float64) circuit.Part
}

func (k kindOf) size() int { return len(k.numbers) + len(k.yesNo) + 1 }

// index is where in the row a quantity stands; -1 for one that the kind hasn't.
func (k kindOf) index(quantity string) int {
	for i, n := range k.numbers {
		if n == quantity {
			return i
		}
	}
	for i, n := range k.yesNo {
		if n == quantity {
			return len(k.numbers) + i
		}
	}
	return -1
}

var kinds = map[tree.PartKind]kindOf{
	tree.IsEMF: {
		numbers: []string{"volts", "ohms"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.EMF{Name: p.ID, Plus: p.From, Minus: p.To, Volts: q[0], Ohms: q[1]}
		},
	},
	tree.IsResistor: {
		numbers: []string{"ohms"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Resistor{Name: p.ID, From: p.From, To: p.To, Ohms: q[0]}
		},
	},
	tree.IsWire: {
		numbers: []string{"ohms", "gauge", "metres", "ends", celsius},
		build:   wire,
	},
	tree.IsSwitch: {
		numbers: []string{"ohms", "leak"}, yesNo: []string{"closed"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Switch{Name: p.ID, From: p.From, To: p.To, Ohms: q[0], Leak: q[1], Closed: q[2] != 0}
		},
	},
	tree.IsFuse: {
		numbers: []string{"amps", "ohms"}, yesNo: []string{"blown"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Fuse{Name: p.ID, From: p.From, To: p.To, Rating: q[0], Ohms: q[1], Blown: q[2] != 0}
		},
	},
	tree.IsRelay: {
		numbers: []string{"ohms", "leak", "coil_ohms", "pulls_in", "drops_out"},
		yesNo:   []string{"welded", "stuck"},
		build:   relay,
	},
	tree.IsMotor: {
		numbers: []string{"ohms", "ke", "brush", "drag", "viscous"}, yesNo: []string{"locked"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Motor{
				Name: p.ID, Plus: p.From, Minus: p.To,
				Ohms: q[0], Ke: q[1], Brush: q[2], Drag: q[3], Viscous: q[4], Locked: q[5] != 0,
			}
		},
	},
	tree.IsDiode: {
		numbers: []string{"ohms"}, yesNo: []string{"shorted"},
		build: diode,
	},
	tree.IsLamp: {
		numbers: []string{"volts", "watts"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Lamp{Name: p.ID, From: p.From, To: p.To, Volts: q[0], Watts: q[1]}
		},
	},
	tree.IsSupply: {
		numbers: []string{"volts", "ohms", "amps", "wakes"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Supply{Name: p.ID, Plus: p.From, Minus: p.To, Volts: q[0], Ohms: q[1], Amps: q[2], Wakes: q[3]}
		},
	},
	tree.IsWinding: {
		numbers: []string{"volts", "hertz", "ohms", "henries"},
		build:   winding,
	},
	tree.IsCapacitor: {
		numbers: []string{"farads", "ohms"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Capacitor{Name: p.ID, From: p.From, To: p.To, Farads: q[0], Ohms: q[1]}
		},
	},
	tree.IsElectronics: {
		numbers: []string{"ohms", "most_amps", "least_volts", "leak"}, yesNo: []string{"shut"},
		build: func(p *tree.CircuitPart, q []float64) circuit.Part {
			return circuit.Electronics{
				Name: p.ID, From: p.From, To: p.To, Sense: p.Sense,
				Ohms: q[0], MostAmps: q[1], LeastVolts: q[2], Leak: q[3], Off: q[4] != 0,
			}
		},
	},
}

// celsius is a quantity of wires that no file writes: it is the bench's.
const celsius = "celsius"

// openOhms is from where on something counts as open; "open" in a file is ten
// times as much.
const openOhms = 1e8

func wire(p *tree.CircuitPart, q []float64) circuit.Part {
	if p.Numbers["metres"] == nil {
		return circuit.Resistor{Name: p.ID, From: p.From, To: p.To, Ohms: q[0]}
	}
	// ohms, if a fault gives a wire of copper any, come on top.
	return circuit.Wire{Name: p.ID, From: p.From, To: p.To, AWG: q[1], Metres: q[2], Extra: q[3] + q[0], Celsius: q[4]}
}

func relay(p *tree.CircuitPart, q []float64) circuit.Part {
	return circuit.Relay{
		Name: p.ID, From: p.From, To: p.To, CoilFrom: p.Coil[0], CoilTo: p.Coil[1],
		Ohms: q[0], Leak: q[1], CoilOhms: q[2], PullIn: q[3], DropOut: q[4], Welded: q[5] != 0, Stuck: q[6] != 0 && q[5] == 0,
	}
}

// diode is a plain resistance when it is shorted, and open when its lead is.
func diode(p *tree.CircuitPart, q []float64) circuit.Part {
	if q[1] != 0 || q[0] >= openOhms {
		const fused = 0.001 // ohm of a junction that has melted through
		return circuit.Resistor{Name: p.ID, From: p.From, To: p.To, Ohms: max(q[0], fused)}
	}
	return circuit.Diode{Name: p.ID, Anode: p.From, Cathode: p.To, Ohms: q[0]}
}

// winding has no EMF when it is open: an ideal source behind a thousand million
// ohms would lose every digit of what is around it.
func winding(p *tree.CircuitPart, q []float64) circuit.Part {
	w := circuit.Winding{Name: p.ID, From: p.From, To: p.To, RMS: q[0], Hertz: q[1], Ohms: q[2], Henries: q[3]}
	if w.Ohms >= openOhms {
		w.RMS = 0
	}
	return w
}
