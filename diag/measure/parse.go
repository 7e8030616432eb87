package measure

import (
	"strings"
	"unicode/utf8"
)

// longest is the most characters a reading may have.
const longest = 64

// ParseError says which part of a typed reading can't be read, why, and what
// to write instead.
type ParseError struct {
	Part    string // harmless to print
	Message string
	Hint    string
}

// Error gives all of it on one line.
func (e *ParseError) Error() string {
	s := e.Message
	if e.Part != "" {
		s = "\"" + e.Part + "\": " + s
	}
	return s + "; " + e.Hint
}

func refuse(part, message, hint string) error {
	return &ParseError{Part: part, Message: message, Hint: hint}
}

// Parse reads what a person types or a meter shows, for a meter set to f:
//
//	12.6   12,6   -12.6   .37      a number, in the function's base unit
//	12.6 V   370mV   12.6 V DC     with a unit, and AC or DC if you like
//	1.2k   4k7   2M                prefixes alone
//	OL   0L   O.L                  over range
//	12.3..12.7                     a display that wanders between two values
//	flicker                        a display that never settles
//	0.18 @2   0.18 @200mV          on the 2 V range, on the 200 mV range
//
// A bare number after @ is the range's full scale in the unit of the reading.
// A unit or an AC or DC that doesn't fit f is refused, as is whatever can be
// read in two ways (1,234). Every error is a *ParseError.
func Parse(text string, f Function) (Reading, error) {
	if !f.Known() {
		return Reading{}, refuse("", "no meter function is called "+clean(string(f)), "use one of "+functionNames())
	}
	if utf8.RuneCountInString(text) > longest {
		return Reading{}, refuse("", "that is too long for a reading", "write what the display shows, such as 12.6")
	}
	shown := clean(text)
	r, err := parseClean(shown, f)
	if err != nil {
		return Reading{}, err
	}
	r.Function, r.Text = f, shown
	return r, nil
}

func functionNames() string {
	names := make([]string, 0, len(settings))
	for _, f := range Functions() {
		names = append(names, string(f))
	}
	return choices(names)
}

func parseClean(shown string, f Function) (Reading, error) {
	body, scale, ranged := strings.Cut(signs.Replace(shown), "@")
	body, scale = strings.TrimSpace(body), strings.TrimSpace(scale)
	r, own, err := parseDisplay(body, f)
	if err != nil || !ranged {
		return r, err
	}
	r.Range, err = parseRange(scale, own, f)
	return r, err
}

// parseDisplay reads all but the range. It also gives the unit that was typed,
// for the range to borrow.
func parseDisplay(body string, f Function) (Reading, unit, error) {
	base := typed(f.Base())
	switch {
	case body == "":
		return Reading{}, base, refuse("", "there is no reading", "write what the display shows, such as 12.6")
	case isFlicker(body):
		return Reading{Kind: Flicker}, base, nil
	case strings.Contains(body, ".."):
		return parseWander(body, f)
	}
	if over, found, err := parseOver(body, f); found || err != nil {
		return over, base, err
	}
	q, err := parseQuantity(body, f)
	if err != nil {
		return Reading{}, base, err
	}
	u := q.unitOr(base)
	v, step, err := q.in(u)
	return Reading{Kind: Number, Value: v, Step: step}, u, err
}

func isFlicker(body string) bool {
	switch strings.ToLower(body) {
	case "flicker", "flickers", "flickering":
		return true
	}
	return false
}

// parseOver reads an over-range display, with or without a unit after it.
func parseOver(body string, f Function) (r Reading, found bool, err error) {
	low := strings.ToLower(body)
	for _, sign := range []string{"", "+", "-"} {
		for _, word := range []string{"ol", "o.l", "0l", "0.l", ".ol", "0.l.", "o.l."} {
			if !strings.HasPrefix(low, sign+word) {
				continue
			}
			rest := strings.TrimLeft(body[len(sign+word):], ". ")
			if _, _, err := findUnit(rest, f); err != nil {
				return Reading{}, false, err
			}
			if sign == "-" {
				return Reading{}, false, refuse(body, "over range below zero", "swap the leads and read again")
			}
			return Reading{Kind: OverRange}, true, nil
		}
	}
	return Reading{}, false, nil
}

// parseWander reads two ends. One unit serves both.
func parseWander(body string, f Function) (Reading, unit, error) {
	base := typed(f.Base())
	from, to, _ := strings.Cut(body, "..")
	a, err := parseQuantity(strings.TrimSpace(from), f)
	if err != nil {
		return Reading{}, base, err
	}
	b, err := parseQuantity(strings.TrimSpace(to), f)
	if err != nil {
		return Reading{}, base, err
	}
	ua, ub := a.unitOr(b.unitOr(base)), b.unitOr(a.unitOr(base))
	low, stepA, err := a.in(ua)
	if err != nil {
		return Reading{}, base, err
	}
	high, stepB, err := b.in(ub)
	if err != nil {
		return Reading{}, base, err
	}
	low, high = min(low, high), max(low, high)
	return Reading{Kind: Wanders, Value: (low + high) / 2, Low: low, High: high, Step: max(stepA, stepB)}, ub, nil
}

func parseRange(text string, own unit, f Function) (float64, error) {
	q, err := parseQuantity(text, f)
	if err != nil {
		return 0, err
	}
	full, _, err := q.in(q.unitOr(own))
	if err != nil {
		return 0, err
	}
	if full <= 0 {
		return 0, refuse("@"+text, "a range has a full scale above zero", "write it after the reading, such as 0.18 @2")
	}
	return full, nil
}
