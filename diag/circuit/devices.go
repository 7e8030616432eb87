package circuit

import "math"

// boltzmann is the thermal voltage at 27 C, in V: k*300.15 K/q with the exact
// constants of the SI of 2019.
const boltzmann = 1.380649e-23 * 300.15 / 1.602176634e-19

// broken is what an infinite resistance inside a device is counted as, in ohm.
const broken = 1e15

// device is a part whose current is no straight line of its volts. Newton's
// method sees it as the tangent at its point.
type device struct {
	kind   deviceKind
	a, b   int32
	ohms   float64
	volts  float64 // diode: N*VT; motor: brush volts; lamp, supply: rated volts
	amps   float64 // diode: saturation; motor: brush amps; lamp: amps at rated volts; supply: limit
	most   float64 // diode: critical volts; motor: slope while it runs, in ohm
	stall  float64 // motor: amps from which it turns
	ke     float64
	sleeps int32 // supply: place of its waking in the state; -1: none
	wakes  float64
}

type deviceKind uint8

const (
	diode deviceKind = iota
	motor
	lamp
	supply
)

// point is where a device is linearised, and its tangent there:
// i = amps + siemens*(v - volts).
type point struct {
	siemens float64
	amps    float64
	volts   float64
	at      float64 // junction volts, motor amps, lamp volts, or the supply's mode
}

// Modes of a supply.
const (
	regulating = 0
	limiting   = 1
	blocking   = 2
)

func (c *Circuit) addDevice(p Part, n [4]int32) {
	d := device{a: n[0], b: n[1], sleeps: -1}
	switch p := p.(type) {
	case Diode:
		d.asDiode(p)
	case Motor:
		d.asMotor(p)
	case Lamp:
		d.kind, d.volts, d.amps = lamp, p.Volts, p.Watts/p.Volts
	case Supply:
		d.kind, d.volts, d.amps, d.ohms, d.wakes = supply, p.Volts, p.Amps, min(max(p.Ohms, direct), broken), p.Wakes
		if p.Wakes > 0 {
			d.sleeps = int32(len(c.supplies))
			c.supplies = append(c.supplies, int32(len(c.devices)))
		}
	}
	c.refs = append(c.refs, ref{kind: isDevice, at: int32(len(c.devices))})
	c.devices = append(c.devices, d)
}

func (d *device) asDiode(p Diode) {
	d.kind, d.ohms, d.amps = diode, min(p.Ohms, broken), p.Saturation
	if d.amps == 0 {
		d.amps = 5e-9
	}
	ideality := p.Ideality
	if ideality == 0 {
		ideality = 1.8
	}
	d.volts = ideality * boltzmann
	d.most = d.volts * math.Log(d.volts/(math.Sqrt2*d.amps))
}

func (d *device) asMotor(p Motor) {
	d.kind, d.ohms, d.volts, d.amps = motor, min(p.Ohms, broken), p.Brush, p.BrushAmps
	if d.amps == 0 {
		d.amps = 5
	}
	d.stall = math.Inf(1)
	if p.Ke > 0 && !p.Locked {
		d.ke, d.stall, d.most = p.Ke, p.Drag/p.Ke, p.Ke*p.Ke/p.Viscous
	}
}

// rest is the point from which the search begins.
func (d *device) rest() point { return d.tangent(0) }

// tangent is the device linearised where its own variable is w.
func (d *device) tangent(w float64) point {
	switch d.kind {
	case diode:
		return d.junction(w)
	case motor:
		volts, slope := d.motorVolts(w)
		return point{siemens: 1 / slope, amps: w, volts: volts, at: w}
	case lamp:
		amps, slope := d.filament(w)
		return point{siemens: slope, amps: amps, volts: w, at: w}
	}
	switch w {
	case limiting:
		return point{amps: -d.amps, at: w}
	case blocking:
		return point{at: w}
	}
	return point{siemens: 1 / d.ohms, volts: d.volts, at: w}
}

// junction is a diode with its series resistance at a junction voltage.
func (d *device) junction(v float64) point {
	grow := math.Expm1(v / d.volts)
	i := d.amps * grow
	g := d.amps * (grow + 1) / d.volts
	return point{siemens: g / (1 + g*d.ohms), amps: i, volts: v + d.ohms*i, at: v}
}

// motorVolts are the volts across a motor at a current, and their slope in ohm.
func (d *device) motorVolts(i float64) (volts, slope float64) {
	brush := math.Tanh(i / d.amps)
	volts = d.ohms*i + d.volts*brush
	slope = d.ohms + d.volts/d.amps*(1-brush*brush)
	if over := math.Abs(i) - d.stall; over > 0 {
		volts += math.Copysign(d.most*over, i)
		slope += d.most
	}
	return volts, slope
}

// speed of a motor in rad/s at a current: Ke*w is the back EMF of motorVolts.
func (d *device) speed(i float64) float64 {
	if over := math.Abs(i) - d.stall; over > 0 {
		return math.Copysign(d.most*over/d.ke, i)
	}
	return 0
}

// filament is the current of a lamp at its volts, and its slope in siemens. With
// ohms at (0.1 + 0.9 sqrt(u)) of rated, u being the part of rated volts, current
// goes as u to the 0.55 near rated volts; the exponent given for gas-filled lamps
// is 0.541 (IES Lighting Handbook; from memory).
func (d *device) filament(v float64) (amps, slope float64) {
	u := math.Abs(v) / d.volts
	root := math.Sqrt(u)
	part := 0.1 + 0.9*root
	slope = d.amps / d.volts * (0.1 + 0.45*root) / (part * part)
	return math.Copysign(d.amps*u/part, v), slope
}

// line is the current of the tangent at volts v.
func (p *point) line(v float64) float64 { return p.amps + p.siemens*(v-p.volts) }

// same is how near, relatively, two currents count as the same at rest. With the
// 1e-15 A beside it, it is far under what any meter shows and under what islands
// without a way to the reference would feel.
const same = 1e-9

func alike(a, b, near float64) bool { return math.Abs(a-b) <= 1e-6*near+near*math.Abs(a) }

// follow compares the tangent with the device at volts v. It returns true if
// they agree there, and else the variable for the next tangent.
func (d *device) follow(p *point, v, near float64, asleep bool) (bool, float64) {
	i := p.line(v)
	switch d.kind {
	case diode:
		w := v - d.ohms*i
		if alike(d.amps*math.Expm1(w/d.volts), i, near) {
			return true, p.at
		}
		return false, d.limit(w, p.at)
	case motor:
		volts, _ := d.motorVolts(i)
		return math.Abs(volts-v) <= near*(1+math.Abs(v)), i
	case lamp:
		amps, _ := d.filament(v)
		return alike(amps, i, near), v
	}
	mode := d.mode(p.at, v, i, asleep)
	return mode == p.at, mode
}

// mode of a supply that was in a mode and then saw v across it and i through it
// from Plus to Minus.
func (d *device) mode(was, v, i float64, asleep bool) float64 {
	const slack = 1e-12
	switch {
	case asleep:
		return blocking
	case was == regulating && -i > d.amps+slack:
		return limiting
	case was == regulating && -i < -slack:
		return blocking
	case was == limiting && v > d.volts-d.ohms*d.amps+slack:
		return regulating
	case was == blocking && v < d.volts-slack:
		return regulating
	}
	return was
}

// limit shortens a step of a junction upwards, where its current explodes
// (Nagel, SPICE2, ERL-M520, 1975).
func (d *device) limit(w, was float64) float64 {
	if w <= d.most || math.Abs(w-was) <= 2*d.volts {
		return w
	}
	if was <= 0 {
		return d.volts * math.Log(w/d.volts)
	}
	if grow := 1 + (w-was)/d.volts; grow > 0 {
		return was + d.volts*math.Log(grow)
	}
	return d.most
}
