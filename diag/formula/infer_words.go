package formula

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/source"
	"github.com/expr-lang/expr/ast"
)

// equal is == and !=: for words only. Two numbers that were measured or worked
// out are hardly ever exactly equal (0.1 + 0.2 is not 0.3).
func (c *checker) equal(n *ast.BinaryNode) kind {
	left, right := c.infer(n.Left), c.infer(n.Right)
	result := kind{sort: condition}
	switch {
	case left.sort == broken || right.sort == broken:
	case left.sort != right.sort:
		c.mark(n, CodeKind, "a number and text are never equal", "compare words with words, numbers with < or >")
	case left.sort == words:
		c.sameWord(n, left, right)
	case left.sort == condition:
		c.mark(n, CodeEqual, "two conditions can't be compared", `join them by "and" or "or"`)
	default:
		c.unify(n, left, right, "compared")
		c.mark(n, CodeEqual, "two numbers are hardly ever exactly equal", c.withinHint(n))
	}
	return result
}

func (c *checker) withinHint(n *ast.BinaryNode) string {
	call := fmt.Sprintf("within(%s, %s, tolerance)", c.sourceOf(n.Left), c.sourceOf(n.Right))
	if n.Operator == "!=" {
		call = "not " + call
	}
	return "write " + call
}

// sameWord reports a comparison that can never hold.
func (c *checker) sameWord(n *ast.BinaryNode, left, right kind) {
	for _, w := range left.words {
		if slices.Contains(right.words, w) {
			return
		}
	}
	node, wanted, other := n.Right, right.words, left.words
	if _, fixed := n.Left.(*ast.StringNode); fixed {
		node, wanted, other = n.Left, left.words, right.words
	}
	if _, fixed := node.(*ast.StringNode); !fixed || len(wanted) != 1 {
		c.mark(n, CodeWord, "these two never have a word in common", "")
		return
	}
	c.mark(node, CodeWord, quote(wanted[0])+" is not one of the words here", wordHint(wanted[0], other))
}

func wordHint(word string, options []string) string {
	if near := source.Nearest(word, options); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	return "it may be: " + strings.Join(options, ", ")
}

// call is a function with its arguments. An unknown function was reported
// already; its arguments are looked at all the same.
func (c *checker) call(n *ast.CallNode) kind {
	f, ok := byName[pathOf(n.Callee)]
	if !ok {
		for _, a := range n.Arguments {
			c.infer(a)
		}
		return kind{}
	}
	same := c.arguments(f, n)
	switch {
	case f.Condition:
		return kind{sort: condition}
	case f.Same:
		return same
	}
	return kind{sort: quantity, dim: f.Result, bare: f.Result == Plain}
}

// arguments checks each one, and gives the kind that the shared ones have.
func (c *checker) arguments(f Function, n *ast.CallNode) kind {
	if len(n.Arguments) < len(f.Args) || len(n.Arguments) > len(f.Args) && !f.Many {
		c.mark(n, CodeArguments, fmt.Sprintf("%s takes %s, not %d", f.Name, counted(f), len(n.Arguments)), "write "+f.String())
	}
	same := kind{sort: quantity, bare: true}
	for i, node := range n.Arguments {
		arg := f.Args[min(i, len(f.Args)-1)]
		switch {
		case len(arg.Words) > 0:
			c.wordArgument(f, arg, node)
		case arg.Same:
			same = c.unify(node, same, c.quantity(node), "values of "+f.Name+" together")
		default:
			c.numberArgument(f, arg, node)
		}
	}
	return same
}

func counted(f Function) string {
	n := len(f.Args)
	switch {
	case f.Many:
		return fmt.Sprintf("%d values or more", n)
	case n == 1:
		return "1 value"
	}
	return fmt.Sprintf("%d values", n)
}

func (c *checker) numberArgument(f Function, arg Arg, node ast.Node) {
	k := c.quantity(node)
	if k.sort == quantity && !k.bare && k.dim != arg.Dimension {
		c.mark(node, CodeUnit, fmt.Sprintf("this comes to %s; %s of %s must be %s", k.dim, arg.Name, f.Name, arg.Dimension), "write "+f.String())
	}
}

// wordArgument wants words that the function knows, every one of them: a label
// may say any of its options.
func (c *checker) wordArgument(f Function, arg Arg, node ast.Node) {
	k := c.infer(node)
	if k.sort == quantity || k.sort == condition {
		c.mark(node, CodeKind, fmt.Sprintf("%s of %s is a word, not a number", arg.Name, f.Name), "it may be: "+strings.Join(arg.Words, ", "))
		return
	}
	for _, w := range k.words {
		if !slices.Contains(arg.Words, w) {
			c.mark(node, CodeWord, f.Name+" knows no "+quote(w), wordHint(w, arg.Words))
		}
	}
}
