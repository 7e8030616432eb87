package tree

import (
	"fmt"
	"strings"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// figure compiles a formula of the circuit that gives a number, of which plain
// results are in base units; nil when there is none, or when it doesn't compile.
// Without a want any dimension fits.
func (b *builder) figure(c *circuitNotes, e expression, names formula.Names, want ...formula.Dimension) *formula.Formula {
	if !e.Given() {
		return nil
	}
	f, issues := formula.CompileBase(e.Text, e.Origin, names, want...)
	b.explained(c, issues)
	return f
}

// yesNo compiles a formula of the circuit that gives yes or no; nil as in figure.
func (b *builder) yesNo(c *circuitNotes, e expression, names formula.Names) *formula.Formula {
	if !e.Given() {
		return nil
	}
	f, issues := formula.CompileCondition(e.Text, e.Origin, names)
	b.explained(c, issues)
	return f
}

// explained reports what is wrong with a formula, and says of a name that exists
// why it can't stand there.
func (b *builder) explained(c *circuitNotes, issues source.Issues) {
	for _, i := range issues {
		if i.Code == formula.CodeName {
			_, rest, _ := strings.Cut(i.Message, `"`)
			name, _, _ := strings.Cut(rest, `"`)
			if why := c.notHere(name); why != "" {
				i.Hint = why
			}
		}
		b.issues = append(b.issues, i)
	}
}

func (c *circuitNotes) notHere(name string) string {
	part, quantity, dotted := strings.Cut(name, ".")
	_, gives := solved[quantity]
	switch {
	case name == "was":
		return "nothing stood there before; write what it is to be"
	case name == "severity":
		return "add severity: {from: ..., to: ...} to a way of a fault"
	case dotted && gives && c.pieces.has(part) && !c.asked.Has(part+".amps"):
		return "what the solved circuit gives can stand only in conditions of faults, tests and complaints, and in reads"
	case c.values.has(name):
		return fmt.Sprintf("%q stands below; a value may name only those above it", name)
	case c.moves.has(name):
		return "the values of a machine are fixed before anything is set"
	}
	return ""
}
