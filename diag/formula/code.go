package formula

import (
	"fmt"
	"math"
	"slices"

	"github.com/expr-lang/expr/ast"
)

// A checked formula is a tree of small functions, one for each of its parts. They
// read what is known, and note there what has no value; then the rest is not
// worked out.
type (
	numberCode func(*Known) float64
	yesNoCode  func(*Known) bool
	wordCode   func(*Known) string
)

// coder turns the library's tree into functions. The first part that no formula
// may have is its error.
type coder struct {
	needs []string
	err   error
}

func (c *coder) odd(node ast.Node) { c.err = fmt.Errorf("%T can't be worked out", node) }

func (c *coder) number(node ast.Node) numberCode {
	switch n := node.(type) {
	case *ast.FloatNode:
		value := n.Value
		return func(*Known) float64 { return value }
	case *ast.IdentifierNode:
		at := c.place(n)
		return func(k *Known) float64 { return k.numbers[k.at[at]] }
	case *ast.UnaryNode:
		inner := c.number(n.Node)
		if n.Operator == "-" {
			return func(k *Known) float64 { return -inner(k) }
		}
		return inner
	case *ast.BinaryNode:
		return c.sum(n, c.number(n.Left), c.number(n.Right))
	case *ast.ConditionalNode:
		when, one, other := c.yesNo(n.Cond), c.number(n.Exp1), c.number(n.Exp2)
		return func(k *Known) float64 {
			if when(k) {
				return one(k)
			}
			return other(k)
		}
	case *ast.CallNode:
		return c.call(n)
	}
	c.odd(node)
	return nil
}

// place is where among the formula's needs a name stands.
func (c *coder) place(n *ast.IdentifierNode) int {
	at, ok := slices.BinarySearch(c.needs, n.Value)
	if !ok {
		c.odd(n)
	}
	return at
}

func (c *coder) sum(n *ast.BinaryNode, left, right numberCode) numberCode {
	switch n.Operator {
	case "+":
		return func(k *Known) float64 { return left(k) + right(k) }
	case "-":
		return func(k *Known) float64 { return left(k) - right(k) }
	case "*":
		return func(k *Known) float64 { return left(k) * right(k) }
	}
	c.odd(n)
	return nil
}

func (c *coder) yesNo(node ast.Node) yesNoCode {
	switch n := node.(type) {
	case *ast.UnaryNode:
		inner := c.yesNo(n.Node)
		return func(k *Known) bool { return !inner(k) }
	case *ast.BinaryNode:
		return c.holds(n)
	case *ast.ConditionalNode:
		when, one, other := c.yesNo(n.Cond), c.yesNo(n.Exp1), c.yesNo(n.Exp2)
		return func(k *Known) bool {
			if when(k) {
				return one(k)
			}
			return other(k)
		}
	case *ast.CallNode:
		return c.asked(n)
	}
	c.odd(node)
	return nil
}

func (c *coder) holds(n *ast.BinaryNode) yesNoCode {
	switch n.Operator {
	case "and", "&&":
		left, right := c.yesNo(n.Left), c.yesNo(n.Right)
		return func(k *Known) bool { return left(k) && k.why == "" && right(k) }
	case "or", "||":
		left, right := c.yesNo(n.Left), c.yesNo(n.Right)
		return func(k *Known) bool { return left(k) || k.why == "" && right(k) }
	case "==":
		left, right := c.word(n.Left), c.word(n.Right)
		return func(k *Known) bool { return left(k) == right(k) }
	case "!=":
		left, right := c.word(n.Left), c.word(n.Right)
		return func(k *Known) bool { return left(k) != right(k) }
	}
	return c.compared(n, c.number(n.Left), c.number(n.Right))
}

func (c *coder) compared(n *ast.BinaryNode, left, right numberCode) yesNoCode {
	switch n.Operator {
	case "<":
		return func(k *Known) bool { return left(k) < right(k) }
	case "<=":
		return func(k *Known) bool { return left(k) <= right(k) }
	case ">":
		return func(k *Known) bool { return left(k) > right(k) }
	case ">=":
		return func(k *Known) bool { return left(k) >= right(k) }
	}
	c.odd(n)
	return nil
}

func (c *coder) word(node ast.Node) wordCode {
	switch n := node.(type) {
	case *ast.StringNode:
		value := n.Value
		return func(*Known) string { return value }
	case *ast.IdentifierNode:
		at := c.place(n)
		return func(k *Known) string { return k.words[k.at[at]] }
	case *ast.ConditionalNode:
		when, one, other := c.yesNo(n.Cond), c.word(n.Exp1), c.word(n.Exp2)
		return func(k *Known) string {
			if when(k) {
				return one(k)
			}
			return other(k)
		}
	}
	c.odd(node)
	return nil
}

// call is a function that gives a number, or a division. A result that is no
// number is no value, so that it can't slip through a comparison.
func (c *coder) call(n *ast.CallNode) numberCode {
	name := pathOf(n.Callee)
	if name == division {
		return divided(c.number(n.Arguments[0]), c.number(n.Arguments[1]))
	}
	f, ok := byName[name]
	if !ok || f.Condition {
		c.odd(n)
		return nil
	}
	code := c.ran(f, n)
	return func(k *Known) float64 {
		v := code(k)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return k.none(f.Name + " has no value for what it was given")
		}
		return v
	}
}

// divided refuses a divisor of zero, which would pass as infinity.
func divided(over, under numberCode) numberCode {
	return func(k *Known) float64 {
		a, b := over(k), under(k)
		if b == 0 {
			return k.none("it divides by zero")
		}
		return a / b
	}
}

// ran is a function with its arguments, for each form that the table uses.
func (c *coder) ran(f Function, n *ast.CallNode) numberCode {
	if run, ok := f.run.(func(...float64) float64); ok {
		return c.ranMany(run, n)
	}
	var a []numberCode
	var w wordCode
	for i, node := range n.Arguments {
		if len(f.Args[i].Words) > 0 {
			w = c.word(node)
		} else {
			a = append(a, c.number(node))
		}
	}
	var code numberCode
	switch run := f.run.(type) {
	case func(float64) float64:
		code = func(k *Known) float64 { return run(a[0](k)) }
	case func(float64, float64) float64:
		code = func(k *Known) float64 { return run(a[0](k), a[1](k)) }
	case func(float64, float64, float64) float64:
		code = func(k *Known) float64 { return run(a[0](k), a[1](k), a[2](k)) }
	case func(float64, float64, float64, float64) float64:
		code = func(k *Known) float64 { return run(a[0](k), a[1](k), a[2](k), a[3](k)) }
	case func(float64, string) float64:
		code = func(k *Known) float64 { return run(a[0](k), w(k)) }
	case func(float64, float64, string) float64:
		code = func(k *Known) float64 { return run(a[0](k), a[1](k), w(k)) }
	case func(float64, float64, float64, float64, string) float64:
		code = func(k *Known) float64 { return run(a[0](k), a[1](k), a[2](k), a[3](k), w(k)) }
	default:
		c.odd(n)
	}
	return code
}

// ranMany keeps the arguments in what is known, so that nothing is made for them.
func (c *coder) ranMany(run func(...float64) float64, n *ast.CallNode) numberCode {
	var all []numberCode
	for _, node := range n.Arguments {
		all = append(all, c.number(node))
	}
	return func(k *Known) float64 {
		from := len(k.args)
		for _, code := range all {
			v := code(k)
			k.args = append(k.args, v)
		}
		v := run(k.args[from:]...)
		k.args = k.args[:from]
		return v
	}
}

// asked is a function that gives yes or no.
func (c *coder) asked(n *ast.CallNode) yesNoCode {
	run, ok := byName[pathOf(n.Callee)].run.(func(a, b, c float64) bool)
	if !ok || len(n.Arguments) != 3 {
		c.odd(n)
		return nil
	}
	x, y, z := c.number(n.Arguments[0]), c.number(n.Arguments[1]), c.number(n.Arguments[2])
	return func(k *Known) bool { return run(x(k), y(k), z(k)) }
}
