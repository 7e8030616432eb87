package circuit

import "math"

// reduced is a circuit on its way through time as its bent parts see it. All that
// is straight never changes from step to step, so it is solved once, and what a
// step is asked for is a sum: what stands anyway, so much for each volt of what
// windings and capacitors remember, and so much for each ampere of a device.
type reduced struct {
	width   int       // of the sums: 1, then the stores, then the devices
	nodes   []float64 // sums of the unknowns
	volts   []float64 // sums of the volts across each device
	amps    []float64 // and of the amps through each store, windings first
	across  []float64 // and of the volts across each
	now     []float64 // what is summed in this step
	still   []float64 // scratch: volts across each device while it carries nothing
	drop    []float64 // volts across each device
	tangent dense     // the equations of the devices' volts, factored
	slopes  []float64 // for these slopes of the devices
	solved  bool      // and there is an answer
}

// nominal is the conductance in siemens that the straight part has in place of
// each device, which carries what differs from it. Without one, what hangs on a
// device alone would float, and digits be lost.
const nominal = 1e-3

// reduce solves all that is straight. base are the equations with the stores in
// them, links the stores.
func (c *Circuit) reduce(base *system, links []link, room *Room) (*reduced, error) {
	n, stores, devices := int(c.size), len(links), len(c.devices)
	width := 1 + stores + devices
	all := make([]float64, (n+devices+2*stores+1)*width+devices*(devices+3))
	cut := func(n int) []float64 {
		part := all[:n:n]
		all = all[n:]
		return part
	}
	r := &reduced{
		width: width, nodes: cut(n * width), volts: cut(devices * width), amps: cut(stores * width), across: cut(stores * width),
		now: cut(width), still: cut(devices), drop: cut(devices), slopes: cut(devices),
		tangent: dense{n: devices, a: cut(devices * devices), swap: make([]int, devices)},
	}
	r.now[0] = 1
	for i := range c.devices {
		base.conduct(c.devices[i].a, c.devices[i].b, nominal)
	}
	s := room.work(base)
	f := &factors{swap: make([]int32, n)}
	if k := s.factor(f.swap); k >= 0 {
		return nil, &NoAnswer{Node: c.unknownName(int32(k)), Off: math.NaN()}
	}
	f.pack(&s.matrix)
	for q := range width {
		if q > 0 {
			clear(base.b)
		}
		switch {
		case q > stores:
			d := &c.devices[q-1-stores]
			base.inject(d.a, d.b, -1)
		case q > 0:
			base.drive(&links[q-1], 1)
		}
		f.solve(base.b)
		for i, v := range base.b {
			r.nodes[i*width+q] = v
		}
	}
	r.look(c, links)
	return r, nil
}

// drive adds volts in series with a link that stands in the equations.
func (s *system) drive(l *link, volts float64) {
	if l.branch >= 0 {
		s.b[l.branch] += volts
	} else if g := 1 / l.ohms; g > 0 {
		s.inject(l.a, l.b, g*volts)
	}
}

// look makes the sums of what a step asks for.
func (r *reduced) look(c *Circuit, links []link) {
	for i := range c.devices {
		r.between(r.row(r.volts, i), c.devices[i].a, c.devices[i].b)
	}
	for i := range links {
		l := &links[i]
		r.between(r.row(r.across, i), l.a, l.b)
		r.through(r.row(r.amps, i), l)
		if l.branch < 0 && !math.IsInf(l.ohms, 1) {
			r.amps[i*r.width+1+i] -= 1 / l.ohms
		}
	}
}

func (r *reduced) row(of []float64, i int) []float64 { return of[i*r.width : (i+1)*r.width] }

// between adds the sum of the volts from a to b.
func (r *reduced) between(sum []float64, a, b int32) {
	if a >= 0 {
		for q, v := range r.row(r.nodes, int(a)) {
			sum[q] += v
		}
	}
	if b >= 0 {
		for q, v := range r.row(r.nodes, int(b)) {
			sum[q] -= v
		}
	}
}

// through adds the sum of the amps through a link, without what its own volts in
// this step drive.
func (r *reduced) through(sum []float64, l *link) {
	switch {
	case math.IsInf(l.ohms, 1):
	case l.branch >= 0:
		copy(sum, r.row(r.nodes, int(l.branch)))
	default:
		r.between(sum, l.a, l.b)
		sum[0] -= l.volts
		for q := range sum {
			sum[q] /= l.ohms
		}
	}
}

// dot is a sum at what is summed.
func dot(sum, of []float64) float64 {
	out := 0.0
	for q, v := range of {
		out += sum[q] * v
	}
	return out
}

// newton finds the volts across the devices at the volts that the stores have now,
// from the points that the devices have.
func (r *reduced) newton(p *Phase) error {
	known := len(r.now) - len(r.drop)
	for i := range r.still {
		r.still[i] = dot(r.row(r.volts, i)[:known], r.now[:known])
	}
	for step := 1; step <= patience; step++ {
		if !r.step(p) {
			return &NoAnswer{Node: p.deviceNode(0), Off: math.NaN()}
		}
		if p.settle(r.drop, step > gentle) {
			r.carry(p)
			return nil
		}
	}
	return r.lastStep(p)
}

// step is the volts across the devices as they are linearised. It returns false if
// there are none.
func (r *reduced) step(p *Phase) bool {
	for i := range r.drop {
		r.drop[i] = r.still[i]
		for k, w := range r.row(r.volts, i)[r.width-len(r.drop):] {
			t := &p.points[k]
			r.drop[i] += w * (t.amps - t.siemens*t.volts)
		}
	}
	if r.bent(p) {
		r.bend(p)
	}
	if r.solved {
		r.tangent.solve(r.drop)
	}
	return r.solved
}

// bent says whether a device has another slope than when the equations of their
// volts were factored; and what slopes they are factored for next.
func (r *reduced) bent(p *Phase) bool {
	bent := !r.solved
	for i := range r.slopes {
		if slope := p.points[i].siemens; slope != r.slopes[i] {
			r.slopes[i], bent = slope, true
		}
	}
	return bent
}

// bend factors the equations of the devices' volts as they are linearised.
func (r *reduced) bend(p *Phase) {
	n := len(r.drop)
	for i := range n {
		to := r.tangent.a[i*n : (i+1)*n]
		for k, w := range r.row(r.volts, i)[r.width-n:] {
			to[k] = -w * (r.slopes[k] - nominal)
		}
		to[i]++
	}
	r.solved = r.tangent.factor()
}

// carry puts the devices' amps into what is summed.
func (r *reduced) carry(p *Phase) {
	amps := r.now[r.width-len(r.drop):]
	for i, v := range r.drop {
		amps[i] = p.points[i].line(v) - nominal*v
	}
}

// lastStep accepts what has come to rest but for the noise of arithmetic, and says
// what has not.
func (r *reduced) lastStep(p *Phase) error {
	before := append([]float64(nil), r.drop...)
	solved := r.step(p)
	r.carry(p)
	for i, v := range r.drop {
		if off := math.Abs(v - before[i]); !solved || !(off <= noise) {
			return &NoAnswer{Node: p.deviceNode(i), Off: off}
		}
	}
	p.noisy = true
	return nil
}

// deviceNode is a node of the i-th device.
func (p *Phase) deviceNode(i int) string {
	d := &p.c.devices[i]
	return p.c.nodeName(d.a, d.b)
}
