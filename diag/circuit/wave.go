package circuit

import "math"

// Waves are the kept cycles of every node and current.
type Waves struct {
	c     *Circuit
	state []bool
	count int
	volts []float64 // node after node
	amps  []float64 // part after part
}

// Wave is what kinds of meter show of a wave, in V or A. An average-responding
// meter is scaled by the form factor of a sine, pi/(2 sqrt 2) or 1.1107; a cheap
// one rectifies one half only and is scaled by twice that.
type Wave struct {
	Mean    float64 // dc mode
	Average float64 // ac, average-responding, behind a capacitor: 1.1107 x mean absolute deviation
	True    float64 // ac, true RMS, behind a capacitor
	RMS     float64 // ac + dc
	Cheap   float64 // ac range without capacitor: 2.2214 x mean of the positive half
	Least   float64
	Most    float64
}

func newWaves(c *Circuit, r Run, state []bool) *Waves {
	count := r.Keep * r.Steps
	return &Waves{
		c: c, state: state, count: count,
		volts: make([]float64, count*len(c.nodes)), amps: make([]float64, count*len(c.parts)),
	}
}

// keep stores the end of a step as the k-th sample.
func (w *Waves) keep(k int, from *walk) {
	for i := range w.c.nodes {
		w.volts[i*w.count+k] = from.p.x[i]
	}
	for i, r := range w.c.refs {
		a := 0.0
		switch r.kind {
		case isWinding:
			a = from.amps[r.at]
		case isCapacitor:
			a = from.amps[len(w.c.windings)+int(r.at)]
		default:
			a = from.p.amps(i)
		}
		w.amps[i*w.count+k] = a
	}
}

// Between is the wave from one node to another; NaN throughout for unknown nodes.
func (w *Waves) Between(from, to string) Wave {
	a, b := w.samples(from), w.samples(to)
	if a == nil || b == nil {
		return figures(nil)
	}
	for i := range a {
		a[i] -= b[i]
	}
	return figures(a)
}

// Through is the wave of the current through a part, counted as Phase.Amps
// counts it; NaN throughout for unknown parts.
func (w *Waves) Through(part string) Wave {
	i, have := w.c.named[part]
	if !have {
		return figures(nil)
	}
	return figures(w.current(int(i)))
}

// samples are the volts of a node against the reference at the end of every kept
// step; nil for an unknown node.
func (w *Waves) samples(node string) []float64 {
	k, have := w.c.numbers[node]
	if !have {
		return nil
	}
	out := make([]float64, w.count)
	if k >= 0 {
		copy(out, w.volts[int(k)*w.count:])
	}
	return out
}

// Blown says whether a fuse is open in these waves.
func (w *Waves) Blown(fuse string) bool {
	i, have := w.c.named[fuse]
	if !have {
		return false
	}
	_, is := w.c.parts[i].(Fuse)
	return is && !w.state[w.c.refs[i].at]
}

func (w *Waves) current(part int) []float64 { return w.amps[part*w.count : (part+1)*w.count] }

// blown is the state with the fuses open that these waves melt; nil if they melt
// none.
func (w *Waves) blown() []bool {
	var after []bool
	for i, r := range w.c.refs {
		if r.kind != isContact || w.c.latches[r.at].kind != fuseLatch || !w.state[r.at] {
			continue
		}
		if figures(w.current(i)).RMS > w.c.latches[r.at].opens {
			if after == nil {
				after = append(after, w.state...)
			}
			after[r.at] = false
		}
	}
	return after
}

// figures are what meters show of evenly spaced samples of whole cycles, each
// cycle with one of its two ends only: NaN throughout for no samples.
func figures(samples []float64) Wave {
	n := float64(len(samples))
	if n == 0 {
		nan := math.NaN()
		return Wave{nan, nan, nan, nan, nan, nan, nan}
	}
	w := Wave{Least: math.Inf(1), Most: math.Inf(-1)}
	var sum, squares, positive float64
	for _, v := range samples {
		sum += v
		squares += v * v
		positive += max(v, 0)
		w.Least, w.Most = min(w.Least, v), max(w.Most, v)
	}
	w.Mean, w.RMS = sum/n, math.Sqrt(squares/n)
	var off, offSquares float64
	for _, v := range samples {
		off += math.Abs(v - w.Mean)
		offSquares += (v - w.Mean) * (v - w.Mean)
	}
	w.True = math.Sqrt(offSquares / n)
	w.Average = math.Pi / (2 * math.Sqrt2) * off / n
	w.Cheap = math.Pi / math.Sqrt2 * positive / n
	return w
}
