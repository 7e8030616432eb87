package spice

import (
	"math"

	"benchlead/diag/circuit"
)

// lamp is a source of current that depends on its own volts: the resistance
// rises from a tenth at 0 V to all at the rated volts with the root of the volts.
func (d *Deck) lamp(p circuit.Lamp) {
	d.note("lamp", p.Name)
	v := difference(d.at(p.From), d.at(p.To))
	hot := p.Volts * p.Volts / p.Watts
	a, ammeter := d.sensed(d.at(p.From))
	d.add("b", "%s %s i=%s/(%s*(0.1+0.9*sqrt(abs(%s)/%s+1e-30)))", a, d.at(p.To), v, number(hot), v, number(p.Volts))
	d.amps[p.Name] = "i(" + ammeter + ")"
}

// supply gives what its volts and resistance allow, never more than its limit
// and never less than nothing. One that waits to be woken and gives nothing in
// states is left out.
func (d *Deck) supply(p circuit.Supply, states States) {
	d.note("supply", p.Name)
	plus, minus := d.at(p.Plus), d.at(p.Minus)
	if p.Wakes > 0 && states != nil && states.Amps(p.Name) == 0 {
		return
	}
	a, ammeter := d.sensed(plus)
	d.add("b", "%s %s i=-max(0,min(%s,(%s-%s)/%s))", a, minus,
		number(p.Amps), number(p.Volts), difference(plus, minus), number(max(p.Ohms, leastSupply)))
	d.amps[p.Name] = "i(" + ammeter + ")"
	if states != nil {
		d.begin(p.Plus, states)
		d.begin(p.Minus, states)
	}
}

// begin puts a node's volts where the search begins; from zero it would swing
// between a supply's limit and none for ever.
func (d *Deck) begin(node string, states States) {
	if n := d.at(node); n != "0" {
		d.lines = append(d.lines, ".nodeset v("+n+")="+number(states.Volts(node)))
	}
}

// winding has no volts in an operating point: the offset of its sine is none.
func (d *Deck) winding(p circuit.Winding) {
	d.note("winding", p.Name)
	x := d.behind(d.at(p.From), p.Ohms)
	if p.Henries > 0 {
		y := d.inner()
		d.add("l", "%s %s %s", x, y, number(p.Henries))
		x = y
	}
	source := d.add("v", "%s %s dc 0 sin(0 %s %s)", x, d.at(p.To), number(math.Sqrt2*p.RMS), number(p.Hertz))
	d.amps[p.Name] = "i(" + source + ")"
}

func (d *Deck) capacitor(p circuit.Capacitor) {
	d.note("capacitor", p.Name)
	x, ammeter := d.sensed(d.behind(d.at(p.From), p.Ohms))
	d.add("c", "%s %s %s", x, d.at(p.To), number(p.Farads))
	d.amps[p.Name] = "i(" + ammeter + ")"
}
