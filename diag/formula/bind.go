package formula

import (
	"fmt"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	types "github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/conf"
)

// division is the function that stands in for "/": no formula can name it.
const division = "/"

// restricted is the library with everything switched off that it brings along,
// so that a formula can't read a clock, loop or call anything of its own. It is
// never changed: each formula has a copy, see config.
var restricted = func() conf.Config {
	c := conf.CreateNew()
	for _, option := range []expr.Option{
		expr.DisableAllBuiltins(), expr.DisableIfOperator(), expr.MaxNodes(maxNodes), expr.Optimize(false), expr.AsFloat64(),
	} {
		option(c)
	}
	c.Builtins = nil
	return *c
}()

// config is how the library reads one formula. The library only reads what the
// copy shares with restricted: the names of what is switched off.
func config() *conf.Config {
	c := restricted
	c.Functions = conf.FunctionsTable{}
	return &c
}

// uncalled stands where the library wants what a function does. It checks calls by
// their types; what they give is worked out by our own code.
func uncalled(...any) (any, error) { return nil, nil }

// build is the tree of a formula that was checked, with the names and functions
// that it mentions. All numbers are float64.
func build(text string, tokens []token, names Names, yesNo bool) (node ast.Node, err error) {
	defer func() {
		if r := recover(); r != nil { // a bug of the library must not end the program
			err = fmt.Errorf("can't be compiled: %v", r)
		}
	}()
	env := make(map[string]any, len(names.Numbers)+len(names.Words))
	for name := range names.Numbers {
		env[name] = 0.0
	}
	for name := range names.Words {
		env[name] = ""
	}
	c := config()
	c.WithEnv(env)
	c.Visitors = []ast.Visitor{flatten{names.Fixed}}
	if yesNo {
		expr.AsBool()(c)
	}
	expr.Function(division, uncalled, new(func(a, b float64) float64))(c)
	for _, t := range tokens {
		if f, ok := byName[t.text]; ok && t.kind == nameToken {
			expr.Function(f.Name, uncalled, f.run)(c)
		}
	}
	tree, err := types.ParseCheck(text, c)
	if err != nil {
		return nil, err
	}
	return tree.Node, nil
}

// flatten makes a name with dots one name, a whole number a float64, a fixed
// name its number, and a division a call of divide.
type flatten struct{ fixed map[string]Constant }

// Visit is called by the library for each node, children first.
func (f flatten) Visit(node *ast.Node) {
	switch n := (*node).(type) {
	case *ast.IntegerNode:
		ast.Patch(node, &ast.FloatNode{Value: float64(n.Value)})
	case *ast.IdentifierNode:
		if c, ok := f.fixed[n.Value]; ok {
			ast.Patch(node, &ast.FloatNode{Value: c.Value})
		}
	case *ast.MemberNode:
		ast.Patch(node, &ast.IdentifierNode{Value: pathOf(n)})
	case *ast.BinaryNode:
		if n.Operator == "/" {
			ast.Patch(node, &ast.CallNode{
				Callee:    &ast.IdentifierNode{Value: division},
				Arguments: []ast.Node{n.Left, n.Right},
			})
		}
	}
}
