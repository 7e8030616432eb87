package formula

import (
	"math"
	"slices"
	"strings"
)

// Function is one function that a formula may call. The table of them feeds
// the checker, the evaluator, the manual and completion.
type Function struct {
	Name      string
	Args      []Arg
	Many      bool      // the last argument may be repeated
	Result    Dimension // of what it gives, unless Same or Condition
	Same      bool      // it gives the dimension that its arguments share
	Condition bool      // it gives yes or no
	Says      string    // what it gives, one line
	Source    string    // where it is from, in words

	run any // one of the forms that coder.ran knows
}

// Arg is one argument of a function.
type Arg struct {
	Name      string
	Dimension Dimension
	Same      bool     // any dimension, shared by all arguments marked so
	Words     []string // when set, the argument is one of these words
}

// String is how the function is written: "load_floor(celsius, cells)".
func (f Function) String() string {
	var names []string
	for _, a := range f.Args {
		names = append(names, a.Name)
	}
	if f.Many {
		names = append(names, "...")
	}
	return f.Name + "(" + strings.Join(names, ", ") + ")"
}

// Functions is every function that a formula may call, by name. The caller may
// keep the slice.
func Functions() []Function { return slices.Clone(table) }

var (
	table  = allFunctions()
	byName = index(table)
)

func allFunctions() []Function {
	all := slices.Concat(general, lead, lithium, wires, waves, parts, standing)
	slices.SortFunc(all, func(a, b Function) int { return strings.Compare(a.Name, b.Name) })
	return all
}

func index(functions []Function) map[string]Function {
	named := make(map[string]Function, len(functions))
	for _, f := range functions {
		named[f.Name] = f
	}
	return named
}

// number is an argument with a dimension; a word argument is made by oneOf.
func number(name string, d Dimension) Arg { return Arg{Name: name, Dimension: d} }

func oneOf(name string, words []string) Arg { return Arg{Name: name, Words: words} }

func shared(name string) Arg { return Arg{Name: name, Same: true} }

// general are the functions that know nothing of the trade.
var general = []Function{
	{
		Name: "min", Args: []Arg{shared("a"), shared("b")}, Many: true, Same: true,
		Says: "The lowest of the values.", Source: "arithmetic",
		run: func(a ...float64) float64 { return slices.Min(a) },
	},
	{
		Name: "max", Args: []Arg{shared("a"), shared("b")}, Many: true, Same: true,
		Says: "The highest of the values.", Source: "arithmetic",
		run: func(a ...float64) float64 { return slices.Max(a) },
	},
	{
		Name: "abs", Args: []Arg{shared("a")}, Same: true,
		Says: "The value without its sign.", Source: "arithmetic",
		run: math.Abs,
	},
	{
		Name: "within", Args: []Arg{shared("a"), shared("b"), shared("tolerance")}, Condition: true,
		Says: "Whether a and b differ by no more than the tolerance.", Source: "arithmetic",
		run: func(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance },
	},
}
