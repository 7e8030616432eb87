package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ScaleError says that a meter can't have shown a reading: it lacks the
// function, has no such range, or the value is above its scales.
type ScaleError struct {
	Meter    string
	Function Function
	Need     float64   // base units; 0 when the function is missing
	Have     []float64 // full scales, rising; empty when the function is missing
}

// Error says what the meter has and what to do.
func (e *ScaleError) Error() string {
	if len(e.Have) == 0 {
		return fmt.Sprintf("the meter %q has no %s; choose the meter that was used", e.Meter, e.Function)
	}
	full := make([]string, len(e.Have))
	for i, h := range e.Have {
		full[i] = strconv.FormatFloat(h, 'g', 6, 64)
	}
	unit := e.Function.Base()
	return fmt.Sprintf("%s %s does not fit a scale of the meter %q, which has %s up to %s %s; check the reading and its range",
		strconv.FormatFloat(e.Need, 'g', 6, 64), unit, e.Meter, e.Function, strings.Join(full, ", "), unit)
}

// ErrFlickers is what Estimate answers for a display that never settled: such
// a reading has no value and is never averaged.
var ErrFlickers = fmt.Errorf("the display never settled; read again, or answer %q", string(ByMachine))

// sameRange is how far a range as spoken may be from the full scale in the
// table: a "2 V" range may be listed as 1.999 V or as 2.2 V.
const sameRange = 0.2

// Scale is the line of the meter's accuracy table that a reading was taken on:
// the range that was said, or the smallest that holds the value. Continuity
// uses the ohms scales if it has none of its own. The error is a *ScaleError.
func (m Meter) Scale(r Reading) (Scale, error) {
	scales := m.scales(r.Function)
	need := r.size()
	if r.Range > 0 {
		scales, need = nearRange(scales, r.Range), math.Max(need, r.Range*(1-sameRange))
	}
	best := Scale{FullScale: math.Inf(1)}
	for _, s := range scales {
		if s.FullScale >= r.size() && s.FullScale < best.FullScale {
			best = s
		}
	}
	if math.IsInf(best.FullScale, 1) {
		return Scale{}, m.noScale(r, need)
	}
	return best, nil
}

func (m Meter) noScale(r Reading, need float64) error {
	e := &ScaleError{Meter: m.name(), Function: r.Function}
	for _, s := range m.scales(r.Function) {
		e.Need = need
		e.Have = append(e.Have, s.FullScale)
	}
	return e
}

func (m Meter) name() string {
	if m.Title != "" {
		return m.Title
	}
	return m.ID
}

// scales are the meter's lines for a function, in the table's order.
func (m Meter) scales(f Function) []Scale {
	var own, ohms []Scale
	for _, s := range m.Scales {
		switch {
		case s.Function == f:
			own = append(own, s)
		case s.Function == Ohms && f == Continuity:
			ohms = append(ohms, s)
		}
	}
	if len(own) == 0 {
		return ohms
	}
	return own
}

// nearRange keeps the scales nearest to a range as spoken.
func nearRange(scales []Scale, full float64) []Scale {
	var near []Scale
	off := sameRange * full
	for _, s := range scales {
		switch d := math.Abs(s.FullScale - full); {
		case d < off:
			near, off = []Scale{s}, d
		case d == off:
			near = append(near, s)
		}
	}
	return near
}

// size is how large a value the display had to hold.
func (r Reading) size() float64 {
	if r.Kind == Wanders {
		return math.Max(math.Abs(r.Low), math.Abs(r.High))
	}
	return math.Abs(r.Value)
}
