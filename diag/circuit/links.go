package circuit

import "math"

// shortest is the resistance in ohm under which a contact, wire or resistor is
// counted as having this much: nothing that a repairer handles has less. Only an
// EMF may have none at all.
const shortest = 1e-6

// direct is the resistance in ohm from which a part is entered as a conductance.
// Below it the current is an unknown of its own, so that no huge conductance
// drowns the small ones beside it.
const direct = 1e-4

// link is a straight line between two nodes: v = ohms*i + volts.
type link struct {
	a, b   int32
	branch int32 // unknown that is its current; -1: none
	ohms   float64
	volts  float64
}

// contact is a link without a source that a state opens and closes.
type contact struct {
	a, b   int32
	branch int32
	ohms   float64 // closed
	leak   float64 // open; infinite: nothing
}

// winding is a link with a sine source and inductance in series.
type winding struct {
	link
	henries float64
	peak    float64
	hertz   float64
}

type capacitor struct {
	a, b   int32
	farads float64
	ohms   float64
}

// add compiles one part that touches nodes of these numbers.
func (c *Circuit) add(p Part, n [4]int32) {
	switch p := p.(type) {
	case EMF:
		c.addLink(n, p.Ohms, p.Volts)
		c.ideal = c.ideal || p.Ohms < shortest
	case Resistor:
		c.addLink(n, max(p.Ohms, shortest), 0)
	case Wire:
		c.addLink(n, max(p.Resistance(), shortest), 0)
	case Switch:
		c.addLink(n, p.resistance(), 0)
	case Fuse:
		c.addFuse(p, n)
	case Relay:
		c.addRelay(p, n)
	case Electronics:
		c.addElectronics(p, n)
	case Motor, Diode, Lamp, Supply:
		c.addDevice(p, n)
	case Winding:
		c.refs = append(c.refs, ref{kind: isWinding, at: int32(len(c.windings))})
		c.windings = append(c.windings, winding{
			link:    c.newLink(n[0], n[1], max(p.Ohms, shortest), 0),
			henries: p.Henries, peak: math.Sqrt2 * p.RMS, hertz: p.Hertz,
		})
	case Capacitor:
		c.refs = append(c.refs, ref{kind: isCapacitor, at: int32(len(c.caps))})
		c.caps = append(c.caps, capacitor{n[0], n[1], p.Farads, p.Ohms})
	}
}

func (c *Circuit) addLink(n [4]int32, ohms, volts float64) {
	c.refs = append(c.refs, ref{kind: isLink, at: int32(len(c.links))})
	c.links = append(c.links, c.newLink(n[0], n[1], ohms, volts))
}

func (c *Circuit) newLink(a, b int32, ohms, volts float64) link {
	l := link{a: a, b: b, branch: -1, ohms: ohms, volts: volts}
	if ohms < direct {
		l.branch = c.newBranch()
	}
	return l
}

func (c *Circuit) newBranch() int32 {
	c.size++
	return c.size - 1
}

// resistance of the switch as it stands.
func (p Switch) resistance() float64 {
	if p.Closed {
		return max(p.Ohms, shortest)
	}
	return leakage(p.Leak)
}

// leakage is what an open contact conducts, in ohm.
func leakage(leak float64) float64 {
	if leak == 0 {
		return math.Inf(1)
	}
	return max(leak, shortest)
}

// Resistance of the conductor in ohm, ends included: diameter of a gauge number
// from ASTM B258, annealed copper of 17.241 nohm m and 0.00393 a kelvin at 20 C
// from IEC 60028.
func (p Wire) Resistance() float64 {
	diameter := 0.127e-3 * math.Pow(92, (36-p.AWG)/39)
	area := math.Pi / 4 * diameter * diameter
	return 1.7241e-8*(1+0.00393*(p.Celsius-20))*p.Metres/area + p.Extra
}

// amps through a link at the volts x.
func (l *link) amps(x []float64) float64 {
	if l.branch >= 0 {
		return x[l.branch]
	}
	return (at(x, l.a) - at(x, l.b) - l.volts) / l.ohms
}

// now is the contact as a link.
func (k *contact) now(closed bool) link {
	l := link{a: k.a, b: k.b, branch: k.branch, ohms: k.leak}
	if closed {
		l.ohms = k.ohms
	}
	return l
}

// at is the value of an unknown; the reference is 0.
func at(x []float64, i int32) float64 {
	if i < 0 {
		return 0
	}
	return x[i]
}
