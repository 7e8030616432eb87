package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/source"
)

// leftOut builds what is called unmodelled: faults, tests, single choices of
// tests, and things said in words, which nothing is looked up for.
func (b *builder) leftOut(c *circuitNotes) {
	known := set{}
	for _, s := range c.file.Unmodelled {
		what := s.What.Text
		c.out.Unmodelled = append(c.out.Unmodelled, Unmodelled{What: what, Why: b.tell(s.Why), Place: s.What.Place})
		if known[what] && what != "" {
			b.report(CodeTwice, s.What.Place, fmt.Sprintf("%q is in this list twice", what), "take one away")
		}
		known[what] = true
		test, choice, pair := strings.Cut(what, ": ")
		switch {
		case pair && nameID.MatchString(test):
			if b.refer(c.tests, word{Text: test, Place: s.What.Place}) {
				b.only(word{Text: choice, Place: s.What.Place}, fmt.Sprintf("a choice of %q", test), c.system.Test(test).Outcomes())
			}
		case strings.ContainsAny(what, " ,"):
		case strings.Contains(what, "."):
			b.refer(c.faults, s.What)
		case strings.Contains(what, "_") || source.Nearest(what, c.tests.ids()) != "":
			b.refer(c.tests, s.What)
		}
	}
}

// omitted says whether the file calls that unmodelled, and where.
func (c *circuitNotes) omitted(what string) (source.Place, bool) {
	i := slices.IndexFunc(c.file.Unmodelled, func(s leftOutShape) bool { return s.What.Text == what })
	if i < 0 {
		return source.Place{}, false
	}
	return c.file.Unmodelled[i].What.Place, true
}
