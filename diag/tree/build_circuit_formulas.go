package tree

import (
	"fmt"
	"strings"

	"benchlead/diag/formula"
)

// figure compiles a formula of the circuit that gives a number, of which plain
// results are in base units; nil when there is none, or when it doesn't compile.
// Without a want any dimension fits.
func (b *builder) figure(e expression, names formula.Names, want ...formula.Dimension) *formula.Formula {
	if !e.Given() {
		return nil
	}
	f, issues := formula.CompileBase(e.Text, e.Origin, names, want...)
	b.issues = append(b.issues, issues...)
	return f
}

// yesNo compiles a formula of the circuit that gives yes or no; nil as in figure.
func (b *builder) yesNo(e expression, names formula.Names) *formula.Formula {
	if !e.Given() {
		return nil
	}
	f, issues := formula.CompileCondition(e.Text, e.Origin, names)
	b.issues = append(b.issues, issues...)
	return f
}

// notHere says of a name that exists in the circuit why a formula of it can't
// name it; see formula.Names.Elsewhere. Formulas about the solved circuit don't
// ask it: they may name whatever was built.
func (c *circuitNotes) notHere(name string) string {
	part, quantity, dotted := strings.Cut(name, ".")
	_, gives := solved[quantity]
	switch {
	case name == "was":
		return "nothing stood there before; write what it is to be"
	case name == "severity":
		return "only set: of a way may name it, and the way needs severity: {from: ..., to: ...}"
	case dotted && gives && c.pieces.has(part):
		return "what the solved circuit gives can stand only in conditions of faults, tests and complaints, and in reads"
	case c.values.has(name):
		return fmt.Sprintf("%q stands below; a value may name only those above it", name)
	case c.moves.has(name):
		return "the values of a machine are fixed before anything is set"
	}
	return ""
}
