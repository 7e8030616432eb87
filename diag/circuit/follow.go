package circuit

import (
	"math"
	"slices"
)

// Run is how a circuit with windings or capacitors is followed in time: zero
// start, fixed step, first step backward Euler and then trapezoidal.
type Run struct {
	Hertz  float64 // sets the step; windings without a frequency have this one
	Settle int     // cycles before anything is kept
	Keep   int     // cycles kept
	Steps  int     // a cycle
}

// mostKept is how many numbers a run may keep, and mostSteps how long it may go:
// hours of computing, and a count that no cycles times steps run over.
const (
	mostKept  = 1 << 27
	mostSteps = 1 << 31
)

// kindness is the relative difference of currents at which a step in time is
// taken as solved: tighter ones drown in the noise of floating windings.
const kindness = 1e-7

// Follow runs the circuit in time. Contacts and sleeping supplies stand as Solve
// leaves them, in its first phase; a fuse then opens if the RMS of its current
// over the kept cycles is more than it holds, and the run begins again. Motors
// answer at once. Lamps keep the resistance that the RMS of the last whole cycle
// gives them, as a filament is slower than the mains.
//
// Errors are those of Solve, and *BadPart for a run that makes no sense.
func (c *Circuit) Follow(r Run) (*Waves, error) {
	if why := r.check(len(c.nodes) + len(c.parts)); why != "" {
		return nil, &BadPart{Part: "run", Why: why}
	}
	s, err := c.Solve()
	if err != nil {
		return nil, err
	}
	state := s.Phases[0].state
	for {
		w := newWalk(c, r, slices.Clone(state))
		if err := w.run(); err != nil {
			return nil, err
		}
		if state = w.waves.blown(); state == nil {
			return w.waves, nil
		}
	}
}

func (r Run) check(columns int) string {
	switch {
	case !(r.Hertz > 1e-6) || math.IsInf(r.Hertz, 0):
		return "Hertz must be above a millionth"
	case r.Settle < 0 || r.Keep < 1:
		return "Settle must be 0 or more and Keep 1 or more"
	case r.Steps < 4:
		return "Steps must be 4 or more, and a few hundred for diodes"
	case (float64(r.Settle)+float64(r.Keep))*float64(r.Steps) > mostSteps:
		return "Settle and Keep are more than can be waited for; follow fewer cycles"
	case float64(r.Keep)*float64(r.Steps)*float64(columns) > mostKept:
		return "Keep times Steps is more than can be stored; keep fewer cycles"
	}
	return ""
}

// walk is a circuit on its way through time.
type walk struct {
	c     *Circuit
	plan  Run
	h     float64 // s a step
	p     *Phase
	base  *system
	room  *Room
	right []float64 // right side without windings and capacitors
	// The windings and then the capacitors, as the links that stand for them in
	// the step, and their state: volts of the inductance, or of the capacitance.
	links  []link
	stored []float64
	amps   []float64
	// before and carried are what stored and amps were before a step, and which
	// devices carried current: what a step that is made again begins from.
	before  []float64
	carried []bool
	soft    bool      // the next step is one of two halves
	square  []float64 // sum of squares of the lamps' volts in this cycle
	waves   *Waves
}

func newWalk(c *Circuit, r Run, state []bool) *walk {
	stores, room := len(c.windings)+len(c.caps), &Room{}
	w := &walk{
		c: c, plan: r, h: 1 / (r.Hertz * float64(r.Steps)),
		p: room.phase(c, state), base: room.system(c), room: room, right: make([]float64, c.size),
		links: make([]link, stores), stored: make([]float64, stores), amps: make([]float64, stores),
		before: make([]float64, 2*stores), carried: make([]bool, len(c.devices)), soft: true,
		square: make([]float64, len(c.devices)), waves: newWaves(c, r, state),
	}
	w.p.near, w.p.filaments = kindness, true
	w.p.rest()
	return w
}

func (w *walk) run() error {
	steps := (w.plan.Settle + w.plan.Keep) * w.plan.Steps
	skip := w.plan.Settle * w.plan.Steps
	w.prepare()
	for k := range steps {
		if err := w.stride(k + 1); err != nil {
			return err
		}
		if k >= skip {
			w.waves.keep(k-skip, w)
		}
		if (k+1)%w.plan.Steps == 0 {
			w.glow()
		}
	}
	return nil
}

// stride goes to the end of step k by the trapezoidal rule. A step in which a
// device begins or ceases to carry current, the next one and the first are gone
// in two halves of backward Euler: the trapezoidal rule would remember the jump
// and swing about the truth from step to step for ever. Half a step of one is the
// same matrix as a whole step of the other (Marti and Lin, Suppression of
// numerical oscillations in the EMTP, IEEE Trans. Power Systems 4, 1989).
func (w *walk) stride(k int) error {
	if !w.soft {
		n := copy(w.before, w.stored)
		copy(w.before[n:], w.amps)
		if err := w.step(float64(k), false); err != nil {
			return err
		}
		if !w.turned() {
			w.watch()
			return nil
		}
		copy(w.stored, w.before[:n])
		copy(w.amps, w.before[n:])
	}
	for _, end := range [...]float64{float64(k) - 0.5, float64(k)} {
		if err := w.step(end, true); err != nil {
			return err
		}
	}
	w.soft = w.turned() || !w.soft
	w.watch()
	return nil
}

// carries is the current from which a device counts as carrying any, in A:
// under it a jump is too small to be seen.
const carries = 1e-6

// turned says whether a device has begun or ceased to carry current since it was
// asked last.
func (w *walk) turned() bool {
	turned := false
	for i := range w.c.devices {
		d := &w.c.devices[i]
		now := math.Abs(w.p.points[i].line(at(w.p.x, d.a)-at(w.p.x, d.b))) > carries
		turned = turned || now != w.carried[i]
		w.carried[i] = now
	}
	return turned
}

// prepare makes the part of the equations that stays from step to step.
func (w *walk) prepare() {
	w.c.fill(w.base, w.p.state, nil)
	copy(w.right, w.base.b)
	for i := range w.c.windings {
		v := &w.c.windings[i]
		w.links[i] = v.link
		w.links[i].ohms = v.ohms + 2*v.henries/w.h
		w.base.enter(&w.links[i])
	}
	for i := range w.c.caps {
		v, k := &w.c.caps[i], len(w.c.windings)+i
		w.links[k] = link{a: v.a, b: v.b, branch: -1, ohms: v.ohms + w.h/(2*v.farads)}
		w.base.enter(&w.links[k])
	}
	copy(w.base.b, w.right)
}

// step solves the circuit k steps after the beginning, a whole step after the last
// solution, or half a one by Euler.
func (w *walk) step(k float64, euler bool) error {
	copy(w.base.b, w.right)
	for i := range w.links {
		l := &w.links[i]
		l.volts = w.drive(i, k, euler)
		if l.branch >= 0 {
			w.base.b[l.branch] += l.volts
		} else if g := 1 / l.ohms; g > 0 {
			w.base.inject(l.a, l.b, g*l.volts)
		}
	}
	if _, err := w.p.newton(w.base, w.room); err != nil {
		return err
	}
	for i := range w.links {
		w.store(i, k)
	}
	return nil
}

// drive is the source that stands for what a winding or capacitor remembers.
func (w *walk) drive(i int, k float64, euler bool) float64 {
	if i < len(w.c.windings) {
		v := &w.c.windings[i]
		volts := v.emf(w, k)
		if v.henries > 0 && !math.IsInf(v.ohms, 1) {
			volts -= (w.links[i].ohms - v.ohms) * w.amps[i]
			if !euler {
				volts -= w.stored[i]
			}
		}
		return volts
	}
	v := &w.c.caps[i-len(w.c.windings)]
	if v.farads == 0 || math.IsInf(v.ohms, 1) {
		return 0
	}
	if euler {
		return w.stored[i]
	}
	return w.stored[i] + (w.links[i].ohms-v.ohms)*w.amps[i]
}

// emf of a winding at the end of step k.
func (v *winding) emf(w *walk, k float64) float64 {
	hertz := v.hertz
	if hertz == 0 {
		hertz = w.plan.Hertz
	}
	turns := hertz / w.plan.Hertz * k / float64(w.plan.Steps)
	return v.peak * math.Sin(2*math.Pi*(turns-math.Floor(turns)))
}

// store keeps what a winding or capacitor remembers of step k.
func (w *walk) store(i int, k float64) {
	l := &w.links[i]
	w.amps[i] = l.amps(w.p.x)
	across := at(w.p.x, l.a) - at(w.p.x, l.b)
	switch {
	case math.IsInf(l.ohms, 1):
		w.amps[i], w.stored[i] = 0, 0
	case i < len(w.c.windings):
		v := &w.c.windings[i]
		w.stored[i] = across - v.emf(w, k) - v.ohms*w.amps[i]
	default:
		w.stored[i] = across - w.c.caps[i-len(w.c.windings)].ohms*w.amps[i]
	}
}

// watch sums the squares of the lamps' volts.
func (w *walk) watch() {
	for i := range w.c.devices {
		if d := &w.c.devices[i]; d.kind == lamp {
			v := at(w.p.x, d.a) - at(w.p.x, d.b)
			w.square[i] += v * v
		}
	}
}

// glow gives the lamps the resistance of the cycle that has just ended.
func (w *walk) glow() {
	for i := range w.c.devices {
		d := &w.c.devices[i]
		if d.kind != lamp {
			continue
		}
		volts := math.Sqrt(w.square[i] / float64(w.plan.Steps))
		w.square[i] = 0
		amps, slope := d.filament(volts)
		if volts > 0 {
			slope = amps / volts
		}
		w.p.points[i] = point{siemens: slope}
	}
}
