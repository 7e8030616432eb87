package formula

import (
	"maps"
	"slices"

	"benchlead/diag/source"
)

// names reports every name and function that doesn't exist. It works on tokens,
// so that a slip elsewhere doesn't hide them.
func (r *report) names(tokens []token, names Names) {
	for i, t := range tokens {
		if !isName(t) || isUnit(tokens, i, names) || i > 0 && tokens[i-1].kind == numberToken && tokens[i-1].end() == t.at {
			continue // the last two were reported as part of a number
		}
		called := i+1 < len(tokens) && tokens[i+1].is("(")
		if called {
			r.calledName(t, names)
		} else {
			r.plainName(t, names)
		}
	}
}

func (r *report) calledName(t token, names Names) {
	if _, ok := byName[t.text]; ok {
		return
	}
	if names.Has(t.text) {
		r.add(CodeFunction, t.at, t.end()-t.at, quote(t.text)+" is a value and no function",
			"to multiply, write "+t.text+" * (...)")
		return
	}
	r.add(CodeFunction, t.at, t.end()-t.at, "there is no function "+quote(t.text), nearFunction(t.text))
}

func nearFunction(name string) string {
	near := source.Nearest(name, slices.Collect(maps.Keys(byName)))
	if near == "" {
		return `"benchlead trees --functions" lists them`
	}
	return "did you mean " + byName[near].String() + "?"
}

func (r *report) plainName(t token, names Names) {
	if names.Has(t.text) {
		return
	}
	if f, ok := byName[t.text]; ok {
		r.add(CodeFunction, t.at, t.end()-t.at, quote(t.text)+" is a function and needs its values", "write "+f.String())
		return
	}
	r.add(CodeName, t.at, t.end()-t.at, "there is no "+quote(t.text)+" here", names.instead(t.text))
}

// instead is a hint for a name that can't stand here.
func (n Names) instead(name string) string {
	if n.Elsewhere != nil {
		if why := n.Elsewhere(name); why != "" {
			return why
		}
	}
	for _, words := range n.Words {
		if slices.Contains(words, name) {
			return "a word stands in quotes: " + quote(name)
		}
	}
	all := n.all()
	if near := source.Nearest(name, all); near != "" {
		return "did you mean " + near + "?"
	}
	return known(all)
}

// Has says whether a formula may mention the name.
func (n Names) Has(name string) bool {
	_, number := n.Numbers[name]
	_, words := n.Words[name]
	_, fixed := n.Fixed[name]
	return number || words || fixed
}

// With is the names and one number more. The names stay as they were.
func (n Names) With(name string, d Dimension) Names {
	n.Numbers = maps.Clone(n.Numbers)
	if n.Numbers == nil {
		n.Numbers = map[string]Dimension{}
	}
	n.Numbers[name] = d
	return n
}

// all is every name, sorted.
func (n Names) all() []string {
	all := slices.AppendSeq(n.variable(), maps.Keys(n.Fixed))
	slices.Sort(all)
	return all
}

// variable is every name whose value may differ, in no order.
func (n Names) variable() []string {
	return slices.AppendSeq(slices.Collect(maps.Keys(n.Numbers)), maps.Keys(n.Words))
}
