package spice

import (
	"fmt"
	"math"

	"benchlead/diag/circuit"
)

// least is the resistance under which no wire, contact or load goes, as in the
// solver; a supply has no less than leastSupply. Ohm.
const (
	least       = 1e-6
	leastSupply = 1e-4
)

// part writes one part. Kinds of part whose state matters look it up in states.
func (d *Deck) part(p circuit.Part, states States, coils map[string]float64) error {
	switch p := p.(type) {
	case circuit.EMF:
		d.emf(p)
	case circuit.Resistor:
		d.note("resistor", p.Name)
		d.amps[p.Name] = d.resistor(d.at(p.From), d.at(p.To), p.Ohms)
	case circuit.Wire:
		d.note("wire", p.Name)
		d.amps[p.Name] = d.resistor(d.at(p.From), d.at(p.To), p.Resistance())
	case circuit.Switch:
		d.note("switch", p.Name)
		d.contact(p.Name, p.From, p.To, p.Closed, p.Ohms, p.Leak)
	case circuit.Fuse:
		d.note("fuse", p.Name)
		blown := p.Blown || states != nil && states.Blown(p.Name)
		d.contact(p.Name, p.From, p.To, !blown, p.Ohms, 0)
	case circuit.Relay:
		d.relay(p, states, coils)
	case circuit.Motor:
		d.motor(p)
	case circuit.Diode:
		d.diode(p)
	case circuit.Lamp:
		d.lamp(p)
	case circuit.Supply:
		d.supply(p, states)
	case circuit.Winding:
		d.winding(p)
	case circuit.Capacitor:
		d.capacitor(p)
	case circuit.Electronics:
		d.note("electronics", p.Name)
		tripped := p.Off || states != nil && states.Tripped(p.Name)
		d.contact(p.Name, p.From, p.To, !tripped, p.Ohms, p.Leak)
	default:
		return fmt.Errorf("no element of ngspice is known for a part of type %T; give one of the structs of package circuit, by value", p)
	}
	return nil
}

// resistor joins two of ngspice's nodes and gives the expression for the
// current. ngspice would put 1 milliohm in the place of none.
func (d *Deck) resistor(a, b string, ohms float64) string {
	if math.IsInf(ohms, 1) {
		return "0"
	}
	ohms = max(ohms, least)
	d.add("r", "%s %s %s", a, b, number(ohms))
	return difference(a, b) + "/" + number(ohms)
}

// behind gives the node behind a series resistance, which is the node itself
// without any.
func (d *Deck) behind(node string, ohms float64) string {
	if ohms == 0 {
		return node
	}
	x := d.inner()
	d.resistor(node, x, ohms)
	return x
}

// sensed gives a node behind an ammeter, and the ammeter.
func (d *Deck) sensed(node string) (inner, ammeter string) {
	x := d.inner()
	return x, d.add("v", "%s %s dc 0", node, x)
}

func (d *Deck) emf(p circuit.EMF) {
	d.note("EMF", p.Name)
	x := d.behind(d.at(p.Plus), p.Ohms)
	d.amps[p.Name] = "i(" + d.add("v", "%s %s dc %s", x, d.at(p.Minus), number(p.Volts)) + ")"
}

func (d *Deck) contact(name, from, to string, closed bool, ohms, leak float64) {
	a, b := d.at(from), d.at(to)
	switch {
	case closed:
		d.amps[name] = d.resistor(a, b, ohms)
	case leak > 0:
		d.amps[name] = d.resistor(a, b, leak)
	}
}

// relay stands still in its state, or moves by its coil's current when the coil
// has henries.
func (d *Deck) relay(p circuit.Relay, states States, coils map[string]float64) {
	d.note("relay", p.Name)
	henries, moves := coils[p.Name]
	if !moves {
		d.amps[Coil(p.Name)] = d.resistor(d.at(p.CoilFrom), d.at(p.CoilTo), p.CoilOhms)
		closed := p.Welded || states != nil && states.Closed(p.Name)
		d.contact(p.Name, p.From, p.To, closed, p.Ohms, p.Leak)
		return
	}
	d.moving(p, henries)
}

// travel is how long a moving contact follows its coil's current behind, s. With
// none, a contact that weakens its own coil would open and close within a step.
const travel = 2e-6

// moving is a relay whose coil has inductance and whose contact goes by the
// coil's amps, which stand as volts on a node of their own.
func (d *Deck) moving(p circuit.Relay, henries float64) {
	x, coil := d.sensed(d.behind(d.at(p.CoilFrom), p.CoilOhms))
	d.add("l", "%s %s %s", x, d.at(p.CoilTo), number(henries))
	now, late := d.inner(), d.inner()
	d.add("b", "%s 0 v=abs(i(%s))", now, coil)
	d.add("r", "%s %s 1", now, late)
	d.add("c", "%s 0 %s", late, number(travel))
	open := p.Leak
	if open == 0 {
		open = 1e12
	}
	a, contact := d.sensed(d.at(p.From))
	d.add("s", "%s %s %s 0 m_%s", a, d.at(p.To), late, contact)
	d.lines = append(d.lines, fmt.Sprintf(".model m_%s sw(vt=%s vh=%s ron=%s roff=%s)", contact,
		number((p.PullIn+p.DropOut)/2), number((p.PullIn-p.DropOut)/2), number(max(p.Ohms, least)), number(open)))
	d.amps[p.Name], d.amps[Coil(p.Name)] = "i("+contact+")", "i("+coil+")"
}

// Coil is the part that Amps knows a relay's coil by.
func Coil(relay string) string { return relay + " (coil)" }

// motor is a source of volts that depends on its own current.
func (d *Deck) motor(p circuit.Motor) {
	d.note("motor", p.Name)
	x, ammeter := d.sensed(d.at(p.Plus))
	i := "i(" + ammeter + ")"
	d.amps[p.Name] = i
	volts := fmt.Sprintf("%s*%s+%s*tanh(%s/%s)", number(p.Ohms), i, number(p.Brush), i, number(or(p.BrushAmps, 5)))
	if !p.Locked {
		volts += fmt.Sprintf("+%s*sgn(%s)*max(0,(%s*abs(%s)-%s)/%s)",
			number(p.Ke), i, number(p.Ke), i, number(p.Drag), number(p.Viscous))
	}
	d.add("b", "%s %s v=%s", x, d.at(p.Minus), volts)
}

func (d *Deck) diode(p circuit.Diode) {
	d.note("diode", p.Name)
	anode, ammeter := d.sensed(d.behind(d.at(p.Anode), p.Ohms))
	d.amps[p.Name] = "i(" + ammeter + ")"
	d.add("d", "%s %s m_%s", anode, d.at(p.Cathode), ammeter)
	d.lines = append(d.lines, fmt.Sprintf(".model m_%s d(is=%s n=%s)",
		ammeter, number(or(p.Saturation, 5e-9)), number(or(p.Ideality, 1.8))))
}

func or(v, usual float64) float64 {
	if v == 0 {
		return usual
	}
	return v
}
