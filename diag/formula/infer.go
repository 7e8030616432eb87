package formula

import (
	"github.com/expr-lang/expr/ast"
)

// sort is the sort of thing that an expression gives.
type sort int

const (
	broken    sort = iota // already reported; fits anywhere
	quantity              // a number
	condition             // yes or no
	words                 // one of some words
)

// kind is what is known of an expression before it is worked out.
type kind struct {
	sort sort
	dim  Dimension // of a quantity
	// bare is set for a plain number that is made of literals and of names
	// without a dimension only: it takes on whatever dimension is wanted.
	bare  bool
	words []string // the words it may be
}

// checker infers the kind of every part of a formula and reports what doesn't
// fit together.
type checker struct {
	*report
	names  Names
	tokens []token
	starts map[int]token // the tokens by where they start
	base   bool          // see aim
}

func newChecker(r *report, tokens []token, names Names) *checker {
	c := &checker{report: r, names: names, tokens: tokens, starts: map[int]token{}}
	for _, t := range tokens {
		c.starts[t.at] = t
	}
	return c
}

// infer is the kind of a node. Every child is looked at, so that each slip is
// reported even when others stand before it.
func (c *checker) infer(node ast.Node) kind {
	switch n := node.(type) {
	case *ast.IntegerNode, *ast.FloatNode:
		return kind{sort: quantity, bare: true}
	case *ast.StringNode:
		return kind{sort: words, words: []string{n.Value}}
	case *ast.IdentifierNode:
		return c.named(n.Value)
	case *ast.MemberNode:
		return c.named(pathOf(n))
	case *ast.UnaryNode:
		return c.unary(n)
	case *ast.BinaryNode:
		return c.binary(n)
	case *ast.ConditionalNode:
		return c.choice(n)
	case *ast.CallNode:
		return c.call(n)
	}
	return c.cant(node)
}

func (c *checker) cant(node ast.Node) kind {
	c.mark(node, CodeSyntax, "this can't be used in a formula", "")
	return kind{}
}

// named is the kind of a name. One that doesn't exist was reported already.
func (c *checker) named(name string) kind {
	if options, ok := c.names.Words[name]; ok {
		return kind{sort: words, words: options}
	}
	d, ok := c.names.Numbers[name]
	if fixed, is := c.names.Fixed[name]; is {
		d, ok = fixed.Dimension, true
	}
	if !ok {
		return kind{}
	}
	return kind{sort: quantity, dim: d, bare: d == Plain}
}

// pathOf is a name with its dots.
func pathOf(node ast.Node) string {
	switch n := node.(type) {
	case *ast.IdentifierNode:
		return n.Value
	case *ast.MemberNode:
		if property, ok := n.Property.(*ast.StringNode); ok {
			return pathOf(n.Node) + "." + property.Value
		}
	}
	return ""
}

func (c *checker) unary(n *ast.UnaryNode) kind {
	if n.Operator == "not" || n.Operator == "!" {
		c.condition(n.Node)
		return kind{sort: condition}
	}
	return c.quantity(n.Node)
}

func (c *checker) binary(n *ast.BinaryNode) kind {
	switch n.Operator {
	case "+", "-":
		return c.unify(n, c.quantity(n.Left), c.quantity(n.Right), sumVerb[n.Operator])
	case "*", "/":
		return c.product(n)
	case "<", "<=", ">", ">=":
		c.unify(n, c.quantity(n.Left), c.quantity(n.Right), "compared")
		return kind{sort: condition}
	case "==", "!=":
		return c.equal(n)
	case "and", "&&", "or", "||":
		c.condition(n.Left)
		c.condition(n.Right)
		return kind{sort: condition}
	}
	return c.cant(n)
}

var sumVerb = map[string]string{"+": "added", "-": "subtracted"}

// quantity is the kind of a part that has to be a number.
func (c *checker) quantity(node ast.Node) kind {
	k := c.infer(node)
	switch k.sort {
	case words:
		c.mark(node, CodeKind, c.sourceOf(node)+" is text, not a number", c.numberHint(node, k))
		return kind{}
	case condition:
		c.mark(node, CodeKind, "a comparison gives yes or no, not a number", "write: condition ? value : other value")
		return kind{}
	}
	return k
}

func (c *checker) numberHint(node ast.Node, k kind) string {
	if text, ok := node.(*ast.StringNode); ok {
		return "leave out the quotes around " + text.Value
	}
	if len(k.words) == 0 {
		return ""
	}
	return "compare it: " + c.sourceOf(node) + " == " + quote(k.words[0])
}

// condition looks at a part that has to be yes or no.
func (c *checker) condition(node ast.Node) {
	k := c.infer(node)
	if k.sort == quantity || k.sort == words {
		c.mark(node, CodeKind, c.sourceOf(node)+" is no condition", "compare it with something")
	}
}

// unify is the kind that both sides share; a bare number takes the other's.
func (c *checker) unify(node ast.Node, left, right kind, verb string) kind {
	switch {
	case left.sort == broken || right.sort == broken:
		return kind{}
	case left.bare:
		return right
	case right.bare || left.dim == right.dim:
		return left
	}
	c.mark(node, CodeUnit, left.dim.String()+" and "+right.dim.String()+" can't be "+verb, "")
	return kind{}
}

func (c *checker) product(n *ast.BinaryNode) kind {
	left, right := c.quantity(n.Left), c.quantity(n.Right)
	divided := n.Operator == "/"
	if divided && isZero(n.Right) {
		c.mark(n.Right, CodeZero, "nothing can be divided by 0", "")
	}
	if left.sort == broken || right.sort == broken {
		return kind{}
	}
	k := kind{sort: quantity, dim: left.dim.times(right.dim), bare: left.bare && right.bare}
	if divided {
		// A count over a count is a share, and no longer in the test's unit.
		k.dim, k.bare = left.dim.over(right.dim), left.bare && isLiteral(n.Right)
	}
	k.bare = k.bare || c.base && k.dim == Plain
	if !chargeFits(left.dim, right.dim, k.dim, divided) {
		c.mark(n, CodeUnit, "amp-hours can only be multiplied or divided by plain numbers",
			"load_amps(cca, ah) gives the amps of a load test")
		return kind{}
	}
	return k
}

// chargeFits keeps amp-hours apart from amps and seconds: a charge is valued in
// amp-hours, so a product of the two would be wrong by 3600.
func chargeFits(left, right, result Dimension, divided bool) bool {
	switch {
	case left == AmpHours && right == AmpHours:
		return divided
	case left == AmpHours:
		return right == Plain
	case right == AmpHours:
		return left == Plain && !divided
	}
	return result != AmpHours
}

func isLiteral(node ast.Node) bool {
	switch n := node.(type) {
	case *ast.IntegerNode, *ast.FloatNode:
		return true
	case *ast.UnaryNode:
		return isLiteral(n.Node)
	case *ast.BinaryNode:
		return isLiteral(n.Left) && isLiteral(n.Right)
	}
	return false
}

func isZero(node ast.Node) bool {
	switch n := node.(type) {
	case *ast.IntegerNode:
		return n.Value == 0
	case *ast.FloatNode:
		return n.Value == 0
	}
	return false
}

// choice is condition ? one : other.
func (c *checker) choice(n *ast.ConditionalNode) kind {
	c.condition(n.Cond)
	one, other := c.infer(n.Exp1), c.infer(n.Exp2)
	switch {
	case one.sort == broken || other.sort == broken:
		return kind{}
	case one.sort != other.sort:
		c.mark(n, CodeKind, "both sides of the : must give the same sort of thing", "")
		return kind{}
	case one.sort == words:
		return kind{sort: words, words: append(append([]string{}, one.words...), other.words...)}
	case one.sort == condition:
		return one
	}
	return c.unify(n, one, other, "given in one place")
}

// sourceOf is how the node is written.
func (c *checker) sourceOf(node ast.Node) string {
	from, to := c.span(node)
	return c.text(from, to)
}
