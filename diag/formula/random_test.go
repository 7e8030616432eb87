package formula_test

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"benchlead/diag/formula"
)

// writer writes random formulas over the names of bench and all functions. Units
// fit together, or Compile would refuse nearly all of them.
type writer struct{ *rapid.T }

var dims = []formula.Dimension{
	formula.Plain, formula.Volts, formula.Amps, formula.Ohms, formula.Kelvin, formula.AmpHours, formula.Seconds,
}

func (w writer) pick(n int) int { return rapid.IntRange(0, n-1).Draw(w.T, "pick") }

func (w writer) from(options ...string) string { return options[w.pick(len(options))] }

// number gives something of a dimension.
func (w writer) number(d formula.Dimension, depth int) string {
	if depth == 0 {
		return w.leaf(d)
	}
	depth--
	switch w.pick(9) {
	case 0:
		return w.leaf(d)
	case 1:
		return w.joined(w.number(d, depth), w.from("+", "-"), w.number(d, depth))
	case 2:
		return w.joined(w.number(d, depth), "*", w.number(formula.Plain, depth))
	case 3:
		return w.joined(w.number(formula.Plain, depth), "*", w.number(d, depth))
	case 4:
		return w.joined(w.number(d, depth), "/", w.number(formula.Plain, depth))
	case 5:
		return "(" + w.condition(depth) + " ? " + w.number(d, depth) + " : " + w.number(d, depth) + ")"
	case 6:
		return w.from("-", "+") + "(" + w.number(d, depth) + ")"
	}
	return w.called(d, depth)
}

// joined is two parts with an operator, with brackets or as precedence has it.
func (w writer) joined(left, operator, right string) string {
	all := left + " " + operator + " " + right
	if operator == "/" || w.pick(2) == 0 {
		return "(" + all + ")"
	}
	return all
}

func (w writer) leaf(d formula.Dimension) string {
	var fit []string
	for name, of := range sorted(bench.Numbers) {
		if of == d {
			fit = append(fit, name)
		}
	}
	if len(fit) > 0 && w.pick(3) > 0 {
		return w.from(fit...)
	}
	if w.pick(2) == 0 {
		return fmt.Sprint(rapid.IntRange(1, 100).Draw(w.T, "whole"))
	}
	return w.from("0.5", ".25", "1e3", "12.6", "0.1", "1e-12", "99999999999", "1e300")
}

// called is a function that gives the dimension.
func (w writer) called(d formula.Dimension, depth int) string {
	var fit []formula.Function
	for _, f := range formula.Functions() {
		if !f.Condition && (f.Same || f.Result == d) {
			fit = append(fit, f)
		}
	}
	return w.call(fit[w.pick(len(fit))], d, depth)
}

// call is a function with arguments; those that share a dimension have d.
func (w writer) call(f formula.Function, d formula.Dimension, depth int) string {
	list := f.Args
	if f.Many && w.pick(2) == 0 {
		list = append(slices.Clone(list), list[len(list)-1])
	}
	var args []string
	for _, a := range list {
		switch {
		case len(a.Words) > 0:
			args = append(args, w.word(a.Words, depth))
		case a.Same:
			args = append(args, w.number(d, depth))
		default:
			args = append(args, w.number(a.Dimension, min(depth, w.pick(2))))
		}
	}
	return f.Name + "(" + strings.Join(args, ", ") + ")"
}

// word is one of some words, as such or by a name that can be nothing else.
func (w writer) word(options []string, depth int) string {
	if depth > 0 && w.pick(4) == 0 {
		return "(" + w.condition(depth-1) + " ? " + w.word(options, depth-1) + " : " + w.word(options, depth-1) + ")"
	}
	for name, words := range sorted(bench.Words) {
		fits := !slices.ContainsFunc(words, func(word string) bool { return !slices.Contains(options, word) })
		if fits && w.pick(3) > 0 {
			return name
		}
	}
	return fmt.Sprintf("%q", w.from(options...))
}

func (w writer) condition(depth int) string {
	d := dims[w.pick(len(dims))]
	if depth == 0 {
		return w.number(d, 0) + " " + w.from("<", "<=", ">", ">=") + " " + w.number(d, 0)
	}
	depth--
	switch w.pick(8) {
	case 0, 1:
		return w.number(d, depth) + " " + w.from("<", "<=", ">", ">=") + " " + w.number(d, depth)
	case 2:
		return "(" + w.condition(depth) + ") " + w.from("and", "&&", "or", "||") + " (" + w.condition(depth) + ")"
	case 3:
		return w.condition(depth) + " " + w.from("and", "or") + " " + w.condition(depth)
	case 4:
		return w.from("not ", "!") + "(" + w.condition(depth) + ")"
	case 5:
		return "(" + w.condition(depth) + " ? " + w.condition(depth) + " : " + w.condition(depth) + ")"
	case 6:
		return "within(" + w.number(d, depth) + ", " + w.number(d, depth) + ", " + w.number(d, depth) + ")"
	}
	name := w.from("label.chemistry", "label.pack")
	return w.word(bench.Words[name], depth) + " " + w.from("==", "!=") + " " + name
}
