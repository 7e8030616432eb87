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
	all := names.all()
	hint := known(all)
	if near := source.Nearest(t.text, all); near != "" {
		hint = "did you mean " + near + "?"
	}
	r.add(CodeName, t.at, t.end()-t.at, "there is no "+quote(t.text)+" here", hint)
}

// Has says whether a formula may mention the name.
func (n Names) Has(name string) bool {
	_, number := n.Numbers[name]
	_, words := n.Words[name]
	_, fixed := n.Fixed[name]
	return number || words || fixed
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
