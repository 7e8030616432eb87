package measure

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// quantity is a number as typed, with the unit typed behind it.
type quantity struct {
	text     string // for messages
	digits   string // sign, digits and a point: what strconv reads
	decimals int
	unit     unit
	said     bool // a unit was typed
}

var (
	number = regexp.MustCompile(`^([+-]?) ?([0-9]*)([.,]?)([0-9]*) ?(.*)$`)
	// infix is a prefix in the place of the decimal point: 4k7.
	infix = regexp.MustCompile(`^([+-]?)([0-9]+)([kKMRr])([0-9]+) ?(?:ohms?)?$`)
	// grouped is a comma that may mark thousands or decimals.
	grouped = regexp.MustCompile(`^[+-]?0*[1-9][0-9]{0,2},[0-9]{3}$`)
	// dashed is what people write for a wandering display.
	dashed = regexp.MustCompile(`^[+-]?[0-9.,]+ ?[^0-9]{0,6} ?- ?[0-9.,]+`)
	// powered is a number with a power of ten, which no bench meter shows.
	powered = regexp.MustCompile(`^[eE] ?[+-]?[0-9]`)
)

// mostValue is the largest number, in base units, that is taken for a reading: a
// hundred times the top of an insulation range.
const mostValue = 1e12

// mostDigits is more than any display on a bench has.
const mostDigits = 12

// parseQuantity reads one number with or without a unit.
func parseQuantity(text string, f Function) (quantity, error) {
	if m := infix.FindStringSubmatch(text); m != nil && f.Base() == "ohm" {
		u, _, err := findUnit(m[3], f)
		return quantity{text, m[1] + m[2] + "." + m[4], len(m[4]), u, true}, err
	}
	m := number.FindStringSubmatch(text)
	if m == nil || m[2]+m[4] == "" {
		return quantity{}, noNumber(text)
	}
	if err := checkNumber(text, m, f); err != nil {
		return quantity{}, err
	}
	u, said, err := findUnit(strings.TrimSpace(m[5]), f)
	return quantity{text, m[1] + m[2] + "." + m[4], len(m[4]), u, said}, err
}

// checkNumber refuses what could be read in two ways.
func checkNumber(text string, m []string, f Function) error {
	plain := m[1] + m[2] + m[3] + m[4]
	switch {
	case len(m[2]+m[4]) > mostDigits:
		return refuse(text, "more digits than a display has", "write what the display shows, such as 12.6")
	case powered.MatchString(m[5]):
		return refuse(text, "a power of ten", "write the number out, or use a unit such as m"+f.Base())
	case dashed.MatchString(text):
		return refuse(text, "two numbers", "write 12.3..12.7 for a display that wanders")
	case strings.HasPrefix(m[5], ".") || strings.HasPrefix(m[5], ","):
		return refuse(text, "two decimal points", "write one number, such as 12.6")
	case strings.ContainsAny(m[5], "0123456789"):
		return refuse(text, "digits after the number", "write one number and its unit, such as 12.6 "+f.Base())
	case grouped.MatchString(plain):
		return refuse(plain, "the comma may mark thousands or decimals",
			"write "+strings.Replace(plain, ",", "", 1)+" or "+strings.Replace(plain, ",", ".", 1))
	}
	return nil
}

func noNumber(text string) error {
	switch strings.ToLower(strings.TrimLeft(text, "+-")) {
	case "inf", "infinity", "infinite", "open":
		return refuse(text, "not a display", "write OL if the meter shows over range")
	case "beep", "beeps", "no beep":
		return refuse(text, "the beeper has no limit that can be relied on", "write the ohms shown, or OL")
	case "":
		return refuse(text, "there is no number", "write what the display shows, such as 12.6")
	}
	return refuse(text, "not a reading", "write what the display shows, such as 12.6, OL, 12.3..12.7 or flicker")
}

// unitOr is the unit typed, or another.
func (q quantity) unitOr(other unit) unit {
	if q.said {
		return q.unit
	}
	return other
}

// in gives value and last digit in base units. The power of ten goes through
// strconv, so that 370 mV is exactly the 0.37 that 0.37 V is.
func (q quantity) in(u unit) (value, step float64, err error) {
	value, err = strconv.ParseFloat(q.digits+"e"+strconv.Itoa(u.power), 64)
	if err != nil {
		return 0, 0, refuse(q.text, "not a number", "write what the display shows, such as 12.6")
	}
	step, err = strconv.ParseFloat("1e"+strconv.Itoa(u.power-q.decimals), 64)
	if err != nil {
		return 0, 0, refuse(q.text, "not a number", "write what the display shows, such as 12.6")
	}
	if u.times != 0 {
		value, step = value*u.times, step*u.times
	}
	if u.base == "degF" {
		value, step = (value-32)*5/9, step*5/9
	}
	if math.Abs(value) > mostValue {
		return 0, 0, refuse(q.text, "no meter shows that much", "check the digits and the unit")
	}
	return value + 0, step, nil // + 0 turns -0 into 0
}
