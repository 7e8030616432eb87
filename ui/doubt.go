package ui

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// doubt is why a value is questioned before it counts, and what was probably meant.
type doubt struct {
	why      string   // a sentence
	shown    string   // the value as typed
	meant    *meaning // nil without a guess
	other    *meaning // a second guess, further from what is healthy
	cantShow bool     // the meter has no range for it, so it can't be kept
}

// meaning is one way to read what was typed.
type meaning struct {
	reading measure.Reading
	says    string // the value meant
	why     string // the slip
}

// ranked is a meaning with how far it is from healthy.
type ranked struct {
	meaning
	off float64
}

// ask is the question in full.
func (d doubt) ask() string {
	out := d.guessed()
	if d.meant != nil {
		out += " Then type yes."
	}
	if d.other != nil {
		out += fmt.Sprintf(" Or %s (%s)? Then type that.", d.other.says, d.other.why)
	}
	if d.meant != nil || d.other != nil {
		out += " Else type it again"
	} else {
		out += " Type it again"
	}
	if !d.cantShow {
		out += ", or \"keep\" if the meter really shows " + d.shown
	}
	return out + ". Nothing was recorded yet."
}

// guessed is what is wrong, and what was probably meant.
func (d doubt) guessed() string {
	if d.meant == nil {
		return d.why
	}
	return fmt.Sprintf("%s Did you mean %s (%s)?", d.why, d.meant.says, d.meant.why)
}

// words are what may be typed, for the line that asks.
func (d doubt) words() string {
	out := []string{"the reading again"}
	if d.meant != nil {
		out = append(out, "yes for "+d.meant.says)
	}
	if !d.cantShow {
		out = append(out, string(Keep))
	}
	return strings.Join(out[:len(out)-1], ", ") + ", or " + out[len(out)-1]
}

// doubts questions a value outside what the system can produce, and one that only turned
// leads would show; nil without a doubt.
func (s *Session) doubts(test *tree.Test, r measure.Reading) *doubt {
	if r.Kind == measure.OverRange || r.Kind == measure.Flicker {
		return nil
	}
	low, high := math.Inf(-1), math.Inf(1)
	values, _ := walk.Values(s.pos.System, *s.facts.Intake)
	if test.Possible != nil {
		var err error
		if low, high, err = test.Possible.Limits(values); err != nil {
			return nil
		}
	}
	d := &doubt{shown: Amount(test, r.Value)}
	switch {
	case r.Value < low || r.Value > high:
		d.why = fmt.Sprintf("%s can't be right here (%s to %s is possible).", d.shown, Amount(test, low), Amount(test, high))
		d.guess(s.meanings(test, r, low, high))
	case s.turned(test, r):
		d.why = fmt.Sprintf("%s is the wrong way round here.", d.shown)
		turned := meant(test, r, slip{-1, 0})
		d.meant = &turned
	default:
		return nil
	}
	return d
}

// slipped asks once about a time of whole seconds under ten: a watch shows hundredths, and
// a 1 may be a key that was hit, or meant for a list. Common practice, no source.
func slipped(test *tree.Test, r measure.Reading, text string) *doubt {
	if !timedTest(test) || r.Kind != measure.Number || r.Value >= 10 || strings.ContainsAny(text, ".,") {
		return nil
	}
	shown := Amount(test, r.Value)
	return &doubt{shown: shown, why: fmt.Sprintf("Is %s what the watch shows? With its tenths, as %.1f, it is taken at once.", shown, r.Value)}
}

// turned says whether a reading would be taken for one with the leads turned.
func (s *Session) turned(test *tree.Test, r measure.Reading) bool {
	e, err := s.facts.Intake.Meter.Estimate(r, s.facts.Intake.Celsius)
	return err == nil && walk.Turned(s.pos.System, s.facts, test, e)
}

// guess takes the first of the meanings, and the second where the first is not healthy
// either.
func (d *doubt) guess(list []ranked) {
	if len(list) > 0 {
		d.meant = &list[0].meaning
	}
	if len(list) > 1 && list[0].off > 0 && list[0].reading.Value*list[1].reading.Value > 0 {
		d.other = &list[1].meaning
	}
}

// slip is one way to write a value down wrongly: by its sign, or by a power of ten.
type slip struct {
	sign  float64
	power int
}

// slips are the usual ones, the likeliest first where nothing else tells.
var slips = []slip{{-1, 0}, {1, -1}, {1, 1}, {1, -3}, {1, 3}, {1, -2}}

// meanings are the slips that lead to a value that can be, and that this meter can show:
// the nearest to what is healthy first.
func (s *Session) meanings(test *tree.Test, r measure.Reading, low, high float64) []ranked {
	var out []ranked
	for _, by := range slips {
		m := meant(test, r, by)
		if v := m.reading.Value; v < low || v > high || v == 0 || s.readable(m.reading) != nil {
			continue
		}
		out = append(out, ranked{m, s.offHealthy(test, m.reading.Value)})
	}
	slices.SortStableFunc(out, func(a, b ranked) int { return cmp.Compare(a.off, b.off) })
	return out
}

// offHealthy is how far a value lies from what a healthy machine reads, in powers of ten;
// 0 within it. Without such a range all are as far.
func (s *Session) offHealthy(test *tree.Test, v float64) float64 {
	if test.Healthy == nil {
		return math.MaxFloat64
	}
	values, _ := walk.Values(s.pos.System, *s.facts.Intake)
	low, high, err := test.Healthy.Limits(values)
	near := math.Min(math.Max(v, low), high)
	switch {
	case err != nil || v != near && v*near <= 0:
		return math.MaxFloat64
	case v == near:
		return 0
	}
	return math.Abs(math.Log10(v / near))
}

// meant is a reading without one slip. What was typed stays in its text.
func meant(test *tree.Test, r measure.Reading, by slip) meaning {
	ten := math.Pow10(max(by.power, -by.power))
	turn := func(v float64) float64 {
		if by.power < 0 {
			return by.sign * v / ten
		}
		return by.sign * v * ten
	}
	m := meaning{reading: r}
	m.reading.Value, m.reading.Step, m.reading.Range = turn(r.Value), math.Abs(turn(r.Step)), 0
	m.reading.Low, m.reading.High = turn(r.Low), turn(r.High)
	if by.sign < 0 {
		m.reading.Low, m.reading.High = m.reading.High+0, m.reading.Low+0
	}
	m.says = Amount(test, m.reading.Value)
	switch {
	case by.sign < 0 && test.Function == measure.ClampAmps:
		m.why = "the clamp turned"
	case by.sign < 0:
		m.why = "leads swapped"
	case math.Abs(float64(by.power)) == 3 && prefixed(test.Unit, by.power) != "":
		m.says, m.why = strconv.FormatFloat(r.Value/perUnit(test), 'g', 6, 64)+" "+prefixed(test.Unit, by.power), "that is "+m.says
	default:
		m.why = "the decimal point"
	}
	m.reading.Text = fmt.Sprintf("%s, meant as %s", r.Text, Amount(test, m.reading.Value))
	return m
}

// prefixed is a unit a thousand times smaller (-3) or larger (3), as a meter's display
// names it; empty for none.
func prefixed(unit string, power int) string {
	smaller := map[string]string{"V": "mV", "A": "mA", "mA": "uA", "ohm": "mohm", "kohm": "ohm", "Mohm": "kohm"}
	larger := map[string]string{"mV": "V", "V": "kV", "uA": "mA", "mA": "A", "mohm": "ohm", "ohm": "kohm", "kohm": "Mohm"}
	if power < 0 {
		return smaller[unit]
	}
	return larger[unit]
}

func perUnit(test *tree.Test) float64 {
	if test.PerUnit == 0 {
		return 1
	}
	return test.PerUnit
}

// takeMeant records what was meant by the value that was questioned.
func (s *Session) takeMeant(ctx context.Context) (Reply, error) {
	p := *s.pending
	if p.doubt.meant == nil {
		return Reply{}, fmt.Errorf("yes to what? Type the reading again, or \"keep\". Nothing was recorded")
	}
	return s.recordRead(ctx, s.pos.System.Test(p.test), p.doubt.meant.reading, false)
}

// keep records the value that was questioned.
func (s *Session) keep(ctx context.Context) (Reply, error) {
	if s.pending == nil {
		return Reply{}, fmt.Errorf("no value was questioned; nothing was recorded")
	}
	p := *s.pending
	if p.doubt.cantShow {
		return Reply{}, s.readable(p.reading)
	}
	return s.recordRead(ctx, s.pos.System.Test(p.test), p.reading, true)
}
