package formula

import (
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"
)

// Missing is the error for a formula of which not every name is known. It is
// never worked out with a stand-in.
type Missing struct {
	Names []string // sorted
}

// Error names what is missing.
func (m *Missing) Error() string {
	return "not known yet: " + strings.Join(m.Names, ", ")
}

// NotFinite is the error for a formula that has no value for what is known: it
// divides by zero, or asks a function beyond its sense.
type NotFinite struct {
	Text string // the formula
	Why  string
}

// Error says why there is no value.
func (n *NotFinite) Error() string {
	if n.Text == "" {
		return n.Why
	}
	return n.Text + " can't be worked out: " + n.Why
}

// Missing is every name that the formula needs and v doesn't have, sorted.
func (f *Formula) Missing(v Values) []string {
	var missing []string
	for i, name := range f.needs {
		_, there := v.Numbers[name]
		if f.texts[i] {
			_, there = v.Words[name]
		}
		if !there {
			missing = append(missing, name)
		}
	}
	return missing
}

// Eval works the formula out. The error is a *Missing if a name isn't known,
// and a *NotFinite if there is no finite value.
func (f *Formula) Eval(v Values) (float64, error) {
	return f.EvalIn(f.known(v))
}

// Holds says whether a condition does. The error is as in Eval. It is only for
// what CompileCondition made.
func (f *Formula) Holds(v Values) (bool, error) {
	return f.HoldsIn(f.known(v))
}

// settle works out, once, a formula that needs no name. One that has no value
// stays as it is, and gives its error each time.
func (f *Formula) settle() {
	if len(f.needs) > 0 {
		return
	}
	var err error
	nothing := NewKnown(Values{})
	if f.yesNo {
		f.yes, err = f.HoldsIn(nothing)
	} else {
		f.value, err = f.EvalIn(nothing)
	}
	f.constant = err == nil
}

// known is what the formula needs of v, and nothing else; nil for one that needs
// nothing and is worked out already.
func (f *Formula) known(v Values) *Known {
	if f.constant {
		return nil
	}
	k := &Known{names: f.own}
	k.grow()
	for i, name := range f.needs {
		if f.texts[i] {
			if word, ok := v.Words[name]; ok {
				k.SetWordAt(i, word)
			}
		} else if value, ok := v.Numbers[name]; ok {
			k.SetAt(i, value)
		}
	}
	return k
}

// code makes ready how the formula is worked out.
func (f *Formula) code(node ast.Node) error {
	f.own = newDirectory()
	for _, name := range f.needs {
		f.own.place(name)
	}
	f.own.places(f)
	c := &coder{needs: f.needs}
	if f.yesNo {
		f.ask = c.yesNo(node)
	} else {
		f.run = c.number(node)
	}
	return c.err
}

// worked says why there is no value, if there is none.
func (f *Formula) worked(k *Known) error {
	if k.why == "" {
		return nil
	}
	return &NotFinite{Text: f.text, Why: k.why}
}

// mention sets what the formula needs. A function that is called is no name,
// also where a value has the same.
func (f *Formula) mention(tokens []token, names Names) {
	f.names = Names{Numbers: map[string]Dimension{}, Words: map[string][]string{}, Fixed: names.Fixed}
	for i, t := range tokens {
		called := i+1 < len(tokens) && tokens[i+1].is("(")
		if !isName(t) || called || !names.Has(t.text) {
			continue
		}
		if options, ok := names.Words[t.text]; ok {
			f.names.Words[t.text] = options
		} else if d, ok := names.Numbers[t.text]; ok {
			f.names.Numbers[t.text] = d
		}
	}
	f.needs = f.names.variable()
	slices.Sort(f.needs)
	f.needs = slices.Clip(f.needs)
	for _, name := range f.needs {
		_, word := f.names.Words[name]
		f.texts = append(f.texts, word)
	}
}
