package measure

import (
	"maps"
	"math"
	"slices"
	"strconv"
)

// Temperatures, °C, between which a meter's accuracy table holds, and what
// each degree outside adds: 18 to 28 °C and a tenth of the figure, as meters'
// accuracy tables commonly say.
const (
	coolest   = 18.0
	warmest   = 28.0
	perDegree = 0.1
)

// root3 turns limits with nothing else known into a standard uncertainty: JCGM
// 100:2008 4.3.7.
var root3 = math.Sqrt(3)

// Estimate is the value of a reading with its standard uncertainty. The
// meter's limit is percent of the reading plus counts, a tenth more for each
// degree outside 18 to 28 °C (celsius is the meter's temperature; NaN counts
// as inside), taken as rectangular. A display written down more coarsely than
// the meter resolves, and a wandering one, add their own parts. Over range is
// +Inf without uncertainty. The error is a *ScaleError, or ErrFlickers.
func (m Meter) Estimate(r Reading, celsius float64) (Estimate, error) {
	switch r.Kind {
	case OverRange:
		return Estimate{Value: math.Inf(1)}, nil
	case Flicker:
		return Estimate{}, ErrFlickers
	}
	s, err := m.Scale(r)
	if err != nil {
		return Estimate{}, err
	}
	wider := 1 + perDegree*outside(celsius)
	key := m.scaleName(s)
	return Estimate{
		Value:  r.Value,
		Gain:   map[string]float64{key: s.Percent / 100 * r.Value * wider / root3},
		Counts: map[string]float64{key: s.Counts * s.Resolution * wider / root3},
		Own:    math.Hypot(r.rounding(s), r.wandering()),
	}, nil
}

func outside(celsius float64) float64 {
	if math.IsNaN(celsius) {
		return 0
	}
	return math.Max(0, math.Max(coolest-celsius, celsius-warmest))
}

// scaleName is the name under which readings share a gain error.
func (m Meter) scaleName(s Scale) string {
	return m.ID + " " + string(s.Function) + " " + strconv.FormatFloat(s.FullScale, 'g', -1, 64)
}

func (r Reading) rounding(s Scale) float64 {
	if r.Step <= s.Resolution {
		return 0
	}
	return r.Step / 2 / root3
}

func (r Reading) wandering() float64 {
	if r.Kind != Wanders {
		return 0
	}
	return (r.High - r.Low) / 2 / root3
}

// U is the standard uncertainty. For each scale the gain and the counts of one
// reading add up, as its maker's limit does; the rest adds by squares.
func (e Estimate) U() float64 {
	sum := e.Own * e.Own
	for _, k := range e.scales() {
		part := math.Abs(e.Gain[k]) + math.Abs(e.Counts[k])
		sum += part * part
	}
	return math.Sqrt(sum)
}

// scales are the names of the scales behind an estimate, sorted so that sums
// come out the same each time.
func (e Estimate) scales() []string {
	names := slices.Collect(maps.Keys(e.Gain))
	for k := range e.Counts {
		if _, ok := e.Gain[k]; !ok {
			names = append(names, k)
		}
	}
	slices.Sort(names)
	return names
}

// Combine is the estimate of a value worked out from others: slopes[i] is by
// how much value changes with parts[i] (a part without a slope doesn't count).
// Gain errors of parts on one scale of one meter are the same error and add
// with their signs, so that in a difference they nearly cancel; counts and the
// rest are each part's own. JCGM 100:2008 5.1 and 5.2.
func Combine(value float64, parts []Estimate, slopes []float64) Estimate {
	out := Estimate{Value: value, Gain: map[string]float64{}, Counts: map[string]float64{}}
	if math.IsInf(value, 0) {
		return out
	}
	var own float64
	times := map[string]int{} // readings of a scale
	for i, p := range parts[:min(len(parts), len(slopes))] {
		c := slopes[i]
		if c == 0 {
			continue
		}
		own = math.Hypot(own, c*p.Own)
		for _, k := range p.scales() {
			times[k]++
			out.Gain[k] += c * p.Gain[k]
			out.Counts[k] = math.Hypot(out.Counts[k], c*p.Counts[k])
		}
	}
	for _, k := range out.scales() {
		if times[k] > 1 {
			own = math.Hypot(own, out.Counts[k])
			delete(out.Counts, k)
		}
	}
	out.Own = own
	return out
}

// Average is the mean of repeats of one reading. Repeating shrinks what is
// each reading's own (or shows how large it is: the scatter counts where it is
// more); it doesn't shrink the meter's error, which is there every time. Any
// over-range repeat makes it over range. No repeats give NaN.
func Average(es []Estimate) Estimate {
	n := float64(len(es))
	out := Estimate{Value: math.NaN(), Gain: map[string]float64{}, Counts: map[string]float64{}}
	if n == 0 {
		return out
	}
	var sum, own float64
	for _, e := range es {
		sum += e.Value
		own = math.Hypot(own, e.Own)
		for _, k := range e.scales() {
			out.Gain[k] += e.Gain[k] / n
			out.Counts[k] += e.Counts[k] / n
		}
	}
	if math.IsInf(sum, 0) {
		return Estimate{Value: sum}
	}
	out.Value = sum / n
	out.Own = math.Max(own/n, scatter(es, out.Value))
	return out
}

// scatter is the standard deviation of the mean: JCGM 100:2008 4.2.3.
func scatter(es []Estimate, mean float64) float64 {
	n := float64(len(es))
	if n < 2 {
		return 0
	}
	var sum float64
	for _, e := range es {
		sum += (e.Value - mean) * (e.Value - mean)
	}
	return math.Sqrt(sum / (n - 1) / n)
}
