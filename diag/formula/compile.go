package formula

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"benchlead/diag/source"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

// MaxBytes is the longest formula that is read. The parser of the expression
// library recurses, and has no limit of its own on nested brackets.
const MaxBytes = 4 << 10

// maxNodes bounds the parts of a formula, and so the time to work it out.
const maxNodes = 200

// Formula is a checked expression. It is never changed after Compile and may
// be worked out by several goroutines at once. One that gives a number is worked
// out with Eval, a condition with Holds.
type Formula struct {
	text   string
	origin source.Origin
	bare   bool
	needs  []string   // every name it mentions, sorted
	texts  []bool     // which of these are words
	names  Names      // of these, and the fixed ones
	ask    yesNoCode  // of a condition
	run    numberCode // of any other
	own    *directory // of a Known that holds what it needs and nothing else

	yesNo    bool // it is a condition
	constant bool // it needs no name; the answer is
	value    float64
	yes      bool
}

// Text is the formula as it was written.
func (f *Formula) Text() string { return f.text }

// Origin is where the formula stands.
func (f *Formula) Origin() source.Origin { return f.origin }

// Bare is true if the result is a plain number with no dimension of its own, as
// in "12.4" or "2.5 * label.cells". Such a result is in the unit in which the
// test is shown; every other result is in base units.
func (f *Formula) Bare() bool { return f.bare }

// Condition is true if the formula gives yes or no (see CompileCondition).
func (f *Formula) Condition() bool { return f.yesNo }

// Needs is every name that must be known to work the formula out, sorted.
func (f *Formula) Needs() []string { return slices.Clone(f.needs) }

// aim is what a formula must give.
type aim struct {
	yesNo bool // a condition; otherwise a number
	dim   Dimension
	any   bool // of whatever dimension
	// base is set when the result is always in base units: a share (a count over
	// a count) then fits where volts are wanted, as other plain numbers do.
	base bool
}

// Compile reads and checks a formula that stands at an origin, may mention
// names, and must give want (or a bare number, see Formula.Bare). It reports
// everything that is wrong at once; then the Formula is nil.
func Compile(text string, at source.Origin, names Names, want Dimension) (*Formula, source.Issues) {
	return compile(text, at, names, aim{dim: want})
}

// CompileBase is Compile for a formula whose result is in base units whatever
// it is made of: every plain number, also a share, fits where volts are wanted.
// Without a want, any dimension does.
func CompileBase(text string, at source.Origin, names Names, want ...Dimension) (*Formula, source.Issues) {
	if len(want) == 0 {
		return compile(text, at, names, aim{any: true, base: true})
	}
	return compile(text, at, names, aim{dim: want[0], base: true})
}

// CompileCondition is Compile for a formula that gives yes or no, to be asked
// with Holds. "yes" and "no" by themselves always hold and never. Plain numbers
// may be compared with any quantity; they are in base units.
func CompileCondition(text string, at source.Origin, names Names) (*Formula, source.Issues) {
	if answer, ok := yesOrNo[strings.TrimSpace(text)]; ok {
		return &Formula{text: text, origin: at, yesNo: true, constant: true, yes: answer}, nil
	}
	return compile(text, at, names, aim{yesNo: true, base: true})
}

var yesOrNo = map[string]bool{"yes": true, "true": true, "no": false, "false": false}

func compile(text string, at source.Origin, names Names, aim aim) (*Formula, source.Issues) {
	r := &report{origin: at}
	if !r.fits(text) {
		return nil, r.issues
	}
	if v, ok := plainNumber(text); ok && !aim.yesNo {
		return &Formula{text: text, origin: at, bare: true, constant: true, value: v}, nil
	}
	r.runes = []rune(text)
	tokens := r.scan()
	r.sequence(tokens, names)
	unread := len(r.issues) > 0
	r.names(tokens, names)
	if unread || len(tokens) == 0 {
		return nil, r.issues.Sorted()
	}
	node := r.parse(text, tokens)
	if node == nil {
		return nil, r.issues.Sorted()
	}
	return r.check(text, node, tokens, names, aim)
}

// plainNumber reads a formula that is nothing but a number, as most are: there is
// nothing to check in it.
func plainNumber(text string) (float64, bool) {
	digits := strings.TrimPrefix(strings.TrimSpace(text), "-")
	whole, part, dot := strings.Cut(digits, ".")
	if !isDigits(whole) || dot && !isDigits(part) || len(digits) > 15 {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	return v, err == nil
}

func isDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// check is the part of Compile that needs a formula which can be read.
func (r *report) check(text string, node ast.Node, tokens []token, names Names, aim aim) (*Formula, source.Issues) {
	c := newChecker(r, tokens, names)
	c.base = aim.base
	result := c.infer(node)
	c.result(node, result, aim)
	if len(r.issues) > 0 {
		return nil, r.issues.Sorted()
	}
	f := &Formula{text: text, origin: r.origin, bare: result.bare, yesNo: aim.yesNo}
	f.mention(tokens, names)
	bound, err := build(text, tokens, f.names, aim.yesNo)
	if err == nil {
		err = f.code(bound)
	}
	if err != nil {
		r.failed(err, tokens)
		return nil, r.issues
	}
	f.settle()
	return f, nil
}

// fits reports text that must not even be looked at.
func (r *report) fits(text string) bool {
	switch {
	case strings.TrimSpace(text) == "":
		r.add(CodeSyntax, 0, 1, "there is no formula here", "write a number, or names with + - * /")
	case len(text) > MaxBytes:
		r.add(CodeLong, 0, 1, fmt.Sprintf("the formula has %d characters, more than the %d that are read", len(text), MaxBytes),
			"work parts of it out in tests of their own")
	case !utf8.ValidString(text):
		r.add(CodeSyntax, 0, 1, "the formula is not UTF-8 text", "save the file as UTF-8")
	}
	return len(r.issues) == 0
}

// parse is the formula as a tree; nil if it can't be read, which it reports.
func (r *report) parse(text string, tokens []token) (node ast.Node) {
	defer func() {
		if recover() != nil { // a bug of the parser must not end the program
			r.add(CodeSyntax, 0, len(r.runes), "this can't be read", "")
			node = nil
		}
	}()
	tree, err := parser.ParseWithConfig(text, config())
	if err != nil {
		r.failed(err, tokens)
		return nil
	}
	return tree.Node
}

// failed reports what the expression library complains of, in our words.
func (r *report) failed(err error, tokens []token) {
	var e *file.Error
	if !errors.As(err, &e) {
		r.add(CodeSyntax, 0, len(r.runes), "this can't be read", "")
		return
	}
	if strings.Contains(e.Message, "maximum allowed nodes") {
		r.add(CodeLong, 0, len(r.runes), fmt.Sprintf("the formula has more than %d parts", maxNodes), "work parts of it out in tests of their own")
		return
	}
	if strings.Contains(e.Message, "token EOF") || strings.Contains(e.Message, "end of expression") {
		last := tokens[len(tokens)-1]
		r.add(CodeSyntax, last.at, last.end()-last.at, "the formula ends too early, after "+last.text, "")
		return
	}
	r.unexpected(e.From, tokens)
}

// unexpected reports the token at which reading ended.
func (r *report) unexpected(at int, tokens []token) {
	for i, t := range tokens {
		if t.at < at {
			continue
		}
		hint := ""
		if i > 0 && isValue(t) && endsValue(tokens[i-1]) {
			hint = "an operator is missing before it"
		}
		r.add(CodeSyntax, t.at, t.end()-t.at, t.text+" can't stand here", hint)
		return
	}
	r.add(CodeSyntax, 0, len(r.runes), "this can't be read", "")
}

func isValue(t token) bool {
	return isName(t) || t.kind == numberToken || t.kind == textToken || t.is("(")
}

func endsValue(t token) bool { return isValue(t) && !t.is("(") || t.is(")") }

// result checks what the whole formula gives.
func (c *checker) result(node ast.Node, k kind, aim aim) {
	want := aim.dim
	switch {
	case k.sort == broken || aim.yesNo && k.sort == condition:
	case aim.yesNo:
		c.mark(node, CodeKind, "this gives no yes or no", "compare it with something, or write yes or no")
	case k.sort == words:
		c.mark(node, CodeKind, "this gives text; "+want.wanted(), "")
	case k.sort == condition:
		c.mark(node, CodeKind, "this gives yes or no; "+want.wanted(), "write: condition ? value : other value")
	case !k.bare && k.dim != want && !aim.any:
		c.mark(node, CodeUnit, "this comes to "+k.dim.String()+"; "+want.wanted(), c.unitHint(k.dim, want))
	}
}
