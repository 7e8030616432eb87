package formula

import (
	"slices"
	"strings"
)

// unitHint says what would bring a result of one dimension to the wanted one, and in what
// the names it is made of are.
func (c *checker) unitHint(have, want Dimension) string {
	var out []string
	if lacks, ok := singly(want.over(have)); ok {
		out = append(out, "multiply it by "+lacks+c.barehanded(lacks))
	} else if over, ok := singly(have.over(want)); ok {
		out = append(out, "divide it by "+over)
	}
	if made := c.madeOf(); made != "" {
		out = append(out, made)
	}
	return strings.Join(out, ", or name something else: ")
}

// barehanded says how a number that was written as it is gets a unit.
func (c *checker) barehanded(lacks string) string {
	number := slices.ContainsFunc(c.tokens, func(t token) bool { return t.text != "" && t.text[0] >= '0' && t.text[0] <= '9' })
	if !number {
		return ""
	}
	return " (a number here has no unit: give it a name and its unit:, in " + lacks + ", under label: or a circuit's values:, and write the name)"
}

// singly names a dimension that a test or a label field of its own may have.
func singly(d Dimension) (string, bool) {
	switch d {
	case Volts, Amps, Ohms, Seconds:
		return d.String(), true
	}
	return "", false
}

// madeOf lists the first names of the formula with what each is.
func (c *checker) madeOf() string {
	const most = 3
	var out, had []string
	for _, t := range c.tokens {
		dim, known := c.names.Numbers[t.text]
		if !known || slices.Contains(had, t.text) || len(out) == most {
			continue
		}
		had, out = append(had, t.text), append(out, t.text+" is "+dim.String())
	}
	return strings.Join(out, ", ")
}
