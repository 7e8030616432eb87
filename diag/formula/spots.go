package formula

import (
	"benchlead/diag/source"
	"github.com/expr-lang/expr/ast"
)

// mark reports something at a node, over all that belongs to it.
func (c *checker) mark(node ast.Node, code source.Code, message, hint string) {
	from, to := c.span(node)
	c.add(code, from, to-from, message, hint)
}

// span is where the text of a node begins and ends. A node's own location is
// only that of its operator or last name.
func (c *checker) span(node ast.Node) (from, to int) {
	from, to = len(c.runes), 0
	for _, leaf := range leaves(node) {
		at := leaf.Location().From
		from = min(from, at)
		end := at + 1
		if t, ok := c.starts[at]; ok {
			end = t.end()
		}
		to = max(to, end)
	}
	return c.balance(min(from, len(c.runes)), max(to, from))
}

// balance widens a span until the brackets in it match.
func (c *checker) balance(from, to int) (int, int) {
	first, last := len(c.tokens), -1
	opens, closes := 0, 0
	for i, t := range c.tokens {
		if t.at < from || t.at >= to {
			continue
		}
		first, last = min(first, i), i
		switch {
		case t.is("("):
			opens++
		case t.is(")") && opens > 0:
			opens--
		case t.is(")"):
			closes++
		}
	}
	for ; closes > 0 && first > 0; first-- {
		if c.tokens[first-1].is("(") {
			closes--
		}
		from = c.tokens[first-1].at
	}
	for ; opens > 0 && last+1 < len(c.tokens); last++ {
		if c.tokens[last+1].is(")") {
			opens--
		}
		to = c.tokens[last+1].end()
	}
	return from, to
}

// leaves are the node and what it is made of, as far as their locations are
// those of a token that belongs to them.
func leaves(node ast.Node) []ast.Node {
	switch n := node.(type) {
	case *ast.MemberNode:
		return leaves(n.Node)
	case *ast.UnaryNode:
		return append(leaves(n.Node), n)
	case *ast.BinaryNode:
		return append(append(leaves(n.Left), leaves(n.Right)...), n)
	case *ast.ConditionalNode:
		return append(append(leaves(n.Cond), leaves(n.Exp1)...), leaves(n.Exp2)...)
	case *ast.CallNode:
		all := leaves(n.Callee)
		for _, a := range n.Arguments {
			all = append(all, leaves(a)...)
		}
		return all
	}
	return []ast.Node{node}
}
