package pricebook

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"benchlead/diag/source"
)

// Mark is the decimal mark of a table.
type Mark string

// The decimal marks.
const (
	Either Mark = "" // told from each number, where it can be
	Point  Mark = "."
	Comma  Mark = ","
)

var (
	// errAmbiguous is a number that means two things.
	errAmbiguous = errors.New("two meanings")
	errThrees    = errors.New("its thousands are not in threes")
)

// setOff is what thousands are set off with, beside the other mark: spaces, also
// those that don't break a line, and apostrophes.
var setOff = strings.NewReplacer(" ", "", "\u00A0", "", "\u2009", "", "\u202F", "", "'", "", "\u2019", "")

// inThrees is a number whose thousands are set off so. 84 50 is none: its space may
// stand for the mark.
var inThrees = regexp.MustCompile(`^[1-9][0-9]{0,2}(?:[ \x{A0}\x{2009}\x{202F}'\x{2019}][0-9]{3})+(?:[.,][0-9]*)?$`)

// plain writes a number with a decimal point and without thousands. What isn't made
// of digits and marks comes back as it is: what is wrong with it others say better.
func plain(text string, mark Mark) (string, error) {
	digits := setOff.Replace(text)
	if strings.Trim(digits, "0123456789.,") != "" || strings.Trim(digits, ".,") == "" {
		return text, nil
	}
	if digits != text && !inThrees.MatchString(text) {
		return "", errThrees
	}
	commas, points := strings.Count(digits, ","), strings.Count(digits, ".")
	switch {
	case commas == 0 && points == 0:
		return digits, nil
	case commas > 0 && points > 0:
		last := Mark(digits[strings.LastIndexAny(digits, ".,")])
		if mark != Either && mark != last {
			return "", fmt.Errorf("its decimal mark is %q", string(last))
		}
		return grouped(digits, last)
	case mark != Either:
		return grouped(digits, mark)
	case commas+points > 1:
		if commas > 0 {
			return grouped(digits, Point)
		}
		return grouped(digits, Comma)
	}
	return single(digits)
}

// single is a number with one mark, of which nobody said what it is.
func single(digits string) (string, error) {
	at := strings.IndexAny(digits, ".,")
	before, after := digits[:at], digits[at+1:]
	if len(after) == 3 && len(before) >= 1 && len(before) <= 3 && before[0] != '0' {
		return "", errAmbiguous
	}
	return before + "." + after, nil
}

// grouped is a number whose decimal mark is known: the other mark sets off thousands.
func grouped(digits string, mark Mark) (string, error) {
	whole, rest, _ := strings.Cut(digits, string(mark))
	if strings.ContainsAny(rest, ".,") {
		return "", errors.New("its marks are mixed")
	}
	groups := strings.Split(strings.ReplaceAll(whole, ",", "."), ".")
	if len(groups) > 1 { // ,50 is no fifty, whatever the mark
		for i, g := range groups {
			if i == 0 && (g == "" || len(g) > 3 || g[0] == '0') || i > 0 && len(g) != 3 {
				return "", errThrees
			}
		}
	}
	if rest == "" && !strings.Contains(digits, string(mark)) {
		return strings.Join(groups, ""), nil
	}
	return strings.Join(groups, "") + "." + rest, nil
}

// number is the amount in a cell with a decimal point; what it can't mean is reported,
// and counts as nothing.
func (t *table) number(c cell, text string, mark Mark) string {
	out, err := plain(text, mark)
	if err == nil {
		return out
	}
	shown := source.CleanLine(text)
	if errors.Is(err, errAmbiguous) {
		t.report(CodeAmbiguous, c, fmt.Sprintf("%q may be %s or %s", shown, strings.NewReplacer(".", "", ",", "").Replace(shown), strings.Replace(shown, ",", ".", 1)),
			"say with --decimal comma or --decimal point which mark the table uses")
	} else {
		t.report(CodeNumber, c, fmt.Sprintf("%q is not an amount: %s", shown, err), "write 1234.50 or 1234,50")
	}
	return "0"
}
