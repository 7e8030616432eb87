package circuit

import "math"

// Waves are the kept cycles of every node and current, as what each of them is a
// sum of at the end of every kept step.
type Waves struct {
	c     *Circuit
	state []bool
	as    *reduced
	count int
	sums  []float64
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

func newWaves(c *Circuit, w *walk, count int) *Waves {
	return &Waves{c: c, state: w.p.state, as: w.as, count: count, sums: make([]float64, 0, count*w.as.width)}
}

// keep stores the end of a step.
func (w *Waves) keep(as *reduced) { w.sums = append(w.sums, as.now...) }

// samples are a sum at the end of every kept step.
func (w *Waves) samples(sum []float64) []float64 {
	out := make([]float64, w.count)
	for k := range out {
		out[k] = dot(sum, w.as.row(w.sums, k))
	}
	return out
}

// Between is the wave from one node to another; NaN throughout for unknown nodes.
func (w *Waves) Between(from, to string) Wave {
	a, haveA := w.c.numbers[from]
	b, haveB := w.c.numbers[to]
	if !haveA || !haveB {
		return figures(nil)
	}
	sum := make([]float64, w.as.width)
	w.as.between(sum, a, b)
	return figures(w.samples(sum))
}

// Through is the wave of the current through a part, counted as Phase.Amps
// counts it; NaN throughout for unknown parts.
func (w *Waves) Through(part string) Wave {
	i, have := w.c.named[part]
	if !have {
		return figures(nil)
	}
	return figures(w.samples(w.current(int(i))))
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

// current is the sum of the amps through a part.
func (w *Waves) current(part int) []float64 {
	sum, r := make([]float64, w.as.width), w.c.refs[part]
	switch at := int(r.at); r.kind {
	case isLink:
		w.as.through(sum, &w.c.links[at])
	case isContact, isRelay:
		l := w.c.contacts[at].now(w.state[at])
		w.as.through(sum, &l)
	case isDevice:
		for q, v := range w.as.row(w.as.volts, at) {
			sum[q] = nominal * v
		}
		sum[w.as.width-len(w.c.devices)+at]++
	case isWinding:
		copy(sum, w.as.row(w.as.amps, at))
	case isCapacitor:
		copy(sum, w.as.row(w.as.amps, len(w.c.windings)+at))
	}
	return sum
}

// blown is the state with the fuses open that these waves melt; nil if they melt
// none.
func (w *Waves) blown() []bool {
	var after []bool
	for i, r := range w.c.refs {
		if r.kind != isContact || w.c.latches[r.at].kind != fuseLatch || !w.state[r.at] {
			continue
		}
		if figures(w.samples(w.current(i))).RMS > w.c.latches[r.at].opens {
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
