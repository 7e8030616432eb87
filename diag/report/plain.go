package report

import (
	"math"
	"strconv"
	"strings"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// plainly is one answer for somebody who has never held a meter.
type plainly struct {
	test   string
	title  string
	seen   bool   // by eye, ear or hand
	verb   string // how it was come by: measured, timed ...
	value  string // "11.4 volts", or what was seen; empty: no answer
	right  string // what a sound machine shows; empty: not known
	judged string // against right; empty when it can't be said

	number, low, high float64 // in the test's unit; low and high may be infinite
	drawn             bool    // number and right can be put on a line
	unit              string
}

// How a value stands against what a sound machine shows.
const (
	plainRight = "right"
	plainLow   = "too low"
	plainHigh  = "too high"
	plainClose = "close to the limit"
	plainOpen  = "its readings do not agree, it is taken again"
)

// plainUnits are the units of the trees as words: one, and many.
var plainUnits = map[string][2]string{
	"V": {"volt", "volts"}, "mV": {"thousandth of a volt", "thousandths of a volt"},
	"A": {"amp", "amps"}, "mA": {"thousandth of an amp", "thousandths of an amp"},
	"ohm": {"ohm", "ohms"}, "mohm": {"thousandth of an ohm", "thousandths of an ohm"},
	"kohm": {"thousand ohms", "thousand ohms"}, "Mohm": {"million ohms", "million ohms"},
	"s": {"second", "seconds"}, "rpm": {"turn a minute", "turns a minute"}, "%": {"percent", "percent"},
	"degC": {"degree Celsius", "degrees Celsius"}, "Ah": {"amp-hour", "amp-hours"},
}

// withUnit puts the unit in words behind a number.
func withUnit(number, unit string) string {
	words, known := plainUnits[unit]
	switch {
	case !known:
		return strings.TrimSpace(number + " " + unit)
	case number == "1":
		return number + " " + words[0]
	}
	return number + " " + words[1]
}

// plain is what a result says to the owner.
func plain(r walk.Result, v formula.Values) plainly {
	if r.Test == nil || r.Mark != walk.Read && r.Mark != walk.Seen {
		return plainly{}
	}
	p := plainly{test: r.Test.ID, title: r.Test.Title, seen: r.Mark == walk.Seen, verb: plainVerb(r.Test), unit: r.Test.Unit}
	switch {
	case p.seen:
		p.value = choiceTitle(r)
		return p
	case r.Flicker:
		p.value = "a value that jumped and never settled"
		return p
	case r.Over:
		p.value = "more than the meter can show"
		return p
	}
	if r.InDispute() { // no number of it is a fact
		p.value, p.judged = "no value that is sure", plainOpen
		return p
	}
	p.number = r.Estimate.Value / perUnit(r.Test)
	p.spell(r)
	p.judge(r, v)
	return p
}

func plainVerb(t *tree.Test) string {
	switch {
	case t.Kind == tree.Worked:
		return "we worked out"
	case t.Function == measure.Seconds:
		return "we timed"
	}
	return "we measured"
}

// spell writes the value with as many digits as its uncertainty leaves.
func (p *plainly) spell(r walk.Result) {
	switch {
	case math.IsNaN(p.number):
		p.value = "nothing that can be told"
	case math.IsInf(p.number, 0) && strings.HasSuffix(p.unit, "ohm"):
		p.value = "no connection at all"
	case math.IsInf(p.number, 0):
		p.value = "more than the meter can show"
	default:
		text := strings.TrimSpace(measure.Format(r.Estimate.Value, "", perUnit(r.Test), 0))
		if u := coverage * r.Estimate.U() / perUnit(r.Test); u > 0 && !math.IsInf(u, 0) {
			text = trimZeros(strconv.FormatFloat(p.number, 'f', decimals(u), 64))
		}
		p.value = withUnit(grouped(text), p.unit)
	}
}

// judge sets the value against what a sound machine shows. What lies so close to a
// limit that the meter can't tell is said to be close.
func (p *plainly) judge(r walk.Result, v formula.Values) {
	if r.Test.Healthy == nil || math.IsNaN(p.number) {
		return
	}
	low, high, err := r.Test.Healthy.Limits(v)
	if err != nil || math.IsInf(low, -1) && math.IsInf(high, 1) {
		return
	}
	per := perUnit(r.Test)
	p.low, p.high = low/per, high/per
	p.right = rightWords(p.low, p.high, p.unit)
	p.drawn = !math.IsInf(p.number, 0)
	u := coverage * r.Estimate.U() / per
	near := func(limit float64) bool { return !math.IsInf(limit, 0) && math.Abs(p.number-limit) < u }
	// nothing lies below a limit of zero: a reading beside it is right, not close
	close := func(limit float64) bool { return limit != 0 && near(limit) }
	switch {
	case low < high && (close(p.low) || close(p.high)):
		p.judged = plainClose
	case p.number < p.low && !near(p.low):
		p.judged = plainLow
	case p.number > p.high && !near(p.high):
		p.judged = plainHigh
	default:
		p.judged = plainRight
	}
}

// rightWords is what a sound machine shows.
func rightWords(low, high float64, unit string) string {
	switch {
	case math.IsInf(low, -1), low == 0 && high > 0 && !math.IsInf(high, 1):
		return "no more than " + withUnit(figures(high), unit)
	case math.IsInf(high, 1):
		return withUnit(figures(low), unit) + " or more"
	case figures(low) == figures(high):
		return withUnit(figures(low), unit)
	}
	return figures(low) + " to " + withUnit(figures(high), unit)
}

// figures writes a limit with three figures: more of them tell an owner nothing.
func figures(v float64) string {
	if v == 0 {
		return "0"
	}
	n := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	return grouped(trimZeros(strconv.FormatFloat(v, 'f', max(0, min(6, n)), 64)))
}

// grouped sets the thousands of a long number apart, and writes whole millions as
// such: 47,000, 1 million.
func grouped(number string) string {
	whole, rest, _ := strings.Cut(number, ".")
	if len(whole) < 5 || rest != "" || strings.HasPrefix(whole, "-") {
		return number
	}
	if millions, ok := strings.CutSuffix(whole, "000000"); ok {
		return millions + " million"
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	return whole
}

func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
