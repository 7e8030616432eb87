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
	return c.blow(func(state []bool) (*Waves, error) {
		w, err := newWalk(c, r, state)
		if err != nil {
			return nil, err
		}
		return w.waves, w.run()
	})
}

// blow runs the circuit as Solve leaves its contacts, and again with the fuses open
// that this melts.
func (c *Circuit) blow(run func(state []bool) (*Waves, error)) (*Waves, error) {
	s, err := c.Solve()
	if err != nil {
		return nil, err
	}
	for state := s.Phases[0].state; ; {
		w, err := run(slices.Clone(state))
		if err != nil || w == nil {
			return nil, err
		}
		if state = w.blown(); state == nil {
			return w, nil
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
	c    *Circuit
	plan Run
	h    float64 // s a step
	p    *Phase  // how the contacts stand and where the devices are linearised
	as   *reduced
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
	sine    []float64 // at every half step of a cycle
	waves   *Waves
}

func newWalk(c *Circuit, r Run, state []bool) (*walk, error) {
	stores, room := len(c.windings)+len(c.caps), &Room{}
	w := &walk{
		c: c, plan: r, h: 1 / (r.Hertz * float64(r.Steps)),
		p:     room.phase(c, state),
		links: make([]link, stores), stored: make([]float64, stores), amps: make([]float64, stores),
		before: make([]float64, 2*stores), carried: make([]bool, len(c.devices)), soft: true,
		square: make([]float64, len(c.devices)),
	}
	w.p.near, w.p.filaments = kindness, true
	w.p.rest()
	w.sine = make([]float64, 2*r.Steps)
	for k := range w.sine {
		w.sine[k] = math.Sin(math.Pi * float64(k) / float64(r.Steps))
	}
	var err error
	w.as, err = c.reduce(w.prepare(room), w.links, room)
	w.waves = newWaves(c, w, r.Keep*r.Steps)
	return w, err
}

func (w *walk) run() error {
	steps := (w.plan.Settle + w.plan.Keep) * w.plan.Steps
	skip := w.plan.Settle * w.plan.Steps
	for k := range steps {
		if err := w.stride(k+1, func(bool) {}); err != nil {
			return err
		}
		if k >= skip {
			w.waves.keep(w.as)
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
// numerical oscillations in the EMTP, IEEE Trans. Power Systems 4, 1989). What has
// been taken, and of which kind, is told as it is.
func (w *walk) stride(k int, taken func(euler bool)) error {
	if !w.soft {
		n := copy(w.before, w.stored)
		copy(w.before[n:], w.amps)
		if err := w.step(2*k, false); err != nil {
			return err
		}
		if !w.turned() {
			taken(false)
			w.watch()
			return nil
		}
		copy(w.stored, w.before[:n])
		copy(w.amps, w.before[n:])
	}
	for _, end := range [...]int{2*k - 1, 2 * k} {
		if err := w.step(end, true); err != nil {
			return err
		}
		taken(true)
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
		now := math.Abs(w.p.points[i].line(w.as.drop[i])) > carries
		turned = turned || now != w.carried[i]
		w.carried[i] = now
	}
	return turned
}

// prepare makes the equations of all that is straight, with windings and
// capacitors as a step sees them.
func (w *walk) prepare(room *Room) *system {
	base := room.system(w.c)
	w.c.fill(base, w.p.state, nil)
	for i := range w.c.windings {
		v := &w.c.windings[i]
		w.links[i] = v.link
		w.links[i].ohms = v.ohms + 2*v.henries/w.h
		base.enter(&w.links[i])
	}
	for i := range w.c.caps {
		v, k := &w.c.caps[i], len(w.c.windings)+i
		w.links[k] = link{a: v.a, b: v.b, branch: -1, ohms: v.ohms + w.h/(2*v.farads)}
		base.enter(&w.links[k])
	}
	return base
}

// step solves the circuit so many half steps after the beginning, a whole step
// after the last solution, or half a one by Euler.
func (w *walk) step(half int, euler bool) error {
	for i := range w.links {
		w.as.now[1+i] = w.drive(i, half, euler)
	}
	if err := w.as.newton(w.p); err != nil {
		return err
	}
	for i := range w.links {
		w.store(i, half)
	}
	return nil
}

// drive is the source that stands for what a winding or capacitor remembers.
func (w *walk) drive(i, half int, euler bool) float64 {
	if i < len(w.c.windings) {
		v := &w.c.windings[i]
		volts := w.emf(v, half)
		if v.stores() {
			volts -= (w.links[i].ohms - v.ohms) * w.amps[i]
			if !euler {
				volts -= w.stored[i]
			}
		}
		return volts
	}
	v := &w.c.caps[i-len(w.c.windings)]
	switch {
	case !v.stores():
		return 0
	case euler:
		return w.stored[i]
	}
	return w.stored[i] + (w.links[i].ohms-v.ohms)*w.amps[i]
}

func (v *winding) stores() bool { return v.henries > 0 && !math.IsInf(v.ohms, 1) }

func (v *capacitor) stores() bool { return v.farads > 0 && !math.IsInf(v.ohms, 1) }

// emf of a winding so many half steps after the beginning.
func (w *walk) emf(v *winding, half int) float64 {
	if v.hertz == 0 || v.hertz == w.plan.Hertz {
		return v.peak * w.sine[half%len(w.sine)]
	}
	turns := v.hertz / w.plan.Hertz * float64(half) / float64(len(w.sine))
	return v.peak * math.Sin(2*math.Pi*(turns-math.Floor(turns)))
}

// store keeps what a winding or capacitor remembers of a step.
func (w *walk) store(i, half int) {
	if math.IsInf(w.links[i].ohms, 1) {
		w.amps[i], w.stored[i] = 0, 0
		return
	}
	w.amps[i] = dot(w.as.row(w.as.amps, i), w.as.now)
	across := dot(w.as.row(w.as.across, i), w.as.now)
	if i < len(w.c.windings) {
		v := &w.c.windings[i]
		w.stored[i] = across - w.emf(v, half) - v.ohms*w.amps[i]
	} else {
		w.stored[i] = across - w.c.caps[i-len(w.c.windings)].ohms*w.amps[i]
	}
}

// watch sums the squares of the lamps' volts.
func (w *walk) watch() {
	for i := range w.c.devices {
		if d := &w.c.devices[i]; d.kind == lamp {
			w.square[i] += w.as.drop[i] * w.as.drop[i]
		}
	}
}

// glow gives the lamps the resistance of the cycle that has just ended, and says by
// what share that is another one at most.
func (w *walk) glow() float64 {
	most := 0.0
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
		most = max(most, math.Abs(slope-w.p.points[i].siemens)/slope)
		w.p.points[i] = point{siemens: slope}
	}
	return most
}
