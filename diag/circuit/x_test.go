package circuit_test

import (
	"fmt"
	"testing"
	"time"

	"benchlead/diag/circuit"
)

func half(loads ...circuit.Part) []circuit.Part {
	return append([]circuit.Part{
		circuit.Winding{Name: "sec", From: "A", To: "0", RMS: 16.4, Hertz: 60, Ohms: 6},
		circuit.Diode{Name: "D1", Anode: "A", Cathode: "O", Ohms: .02},
		circuit.Resistor{Name: "lead", From: "O", To: "P", Ohms: .1},
	}, loads...)
}

func bridge(v, r, h, hz float64, loads ...circuit.Part) []circuit.Part {
	return append([]circuit.Part{
		circuit.Winding{Name: "sec", From: "A", To: "B", RMS: v, Hertz: hz, Ohms: r, Henries: h},
		circuit.Resistor{Name: "insA", From: "A", To: "0", Ohms: 10e6},
		circuit.Resistor{Name: "insB", From: "B", To: "0", Ohms: 10e6},
		circuit.Diode{Name: "D1", Anode: "A", Cathode: "O", Ohms: .02},
		circuit.Diode{Name: "D2", Anode: "B", Cathode: "O", Ohms: .02},
		circuit.Diode{Name: "D3", Anode: "0", Cathode: "A", Ohms: .02},
		circuit.Diode{Name: "D4", Anode: "0", Cathode: "B", Ohms: .02},
		circuit.Resistor{Name: "lead", From: "O", To: "P", Ohms: .1},
	}, loads...)
}

func TestX(t *testing.T) {
	show := func(name string, r circuit.Run, ps []circuit.Part) {
		c, err := circuit.New("0", ps...)
		if err != nil {
			t.Fatal(err)
		}
		t0 := time.Now()
		w, err := c.Follow(r)
		if err != nil {
			t.Fatal(err)
		}
		d := time.Since(t0)
		fmt.Printf("%s P %.9g\n I %.9g\n lead %.9g\n  A %.9g %v\n", name, w.Between("P", "0"), w.Through("sec"), w.Through("lead"), w.Between("A", "0"), d)
	}
	r := circuit.Run{Hertz: 60, Settle: 8, Keep: 2, Steps: 2000}
	bat := func(v float64) circuit.Part {
		return circuit.EMF{Name: "bat", Plus: "P", Minus: "0", Volts: v, Ohms: .05}
	}
	show("op12", r, half(bat(12.4)))
	show("op13", r, half(circuit.Resistor{Name: "load", From: "P", To: "0", Ohms: 2000}, circuit.Capacitor{Name: "c", From: "P", To: "0", Farads: 100e-12}))
	show("op14", r, bridge(11.5, 2, 0, 60, circuit.Resistor{Name: "load", From: "P", To: "0", Ohms: 30}, circuit.Capacitor{Name: "c", From: "O", To: "0", Farads: 2200e-6, Ohms: .1}, circuit.Resistor{Name: "bleed", From: "O", To: "0", Ohms: 4700}))
	r.Hertz = 360
	r.Settle = 30
	ps := half(bat(13.5))
	ps[0] = circuit.Winding{Name: "sec", From: "A", To: "0", RMS: 31, Hertz: 360, Ohms: 1, Henries: 3e-3}
	show("op15", r, ps)
	show("op16", r, bridge(28, .45, .8e-3, 360, bat(14.4)))
}
