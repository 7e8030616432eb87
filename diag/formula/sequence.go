package formula

import (
	"strconv"
	"strings"
)

// maxDepth is how deep brackets may be nested: the parser recurses.
const maxDepth = 30

// sequence reports what is wrong in how tokens follow each other where the
// parser would only say that something is unexpected: a decimal comma, a unit
// after a number, brackets that don't match.
func (r *report) sequence(tokens []token, names Names) {
	for i, t := range tokens {
		switch {
		case t.kind == numberToken:
			r.checkNumber(t)
			r.afterNumber(tokens, i, names)
		case t.kind == nameToken:
			if hint, bad := refusedWords[t.text]; bad {
				r.add(CodeSyntax, t.at, t.end()-t.at, quote(t.text)+" can't be used in a formula", hint)
			}
		}
	}
	r.brackets(tokens)
}

func (r *report) checkNumber(t token) {
	var err error
	if strings.ContainsAny(t.text, ".eE") {
		_, err = strconv.ParseFloat(t.text, 64)
	} else {
		_, err = strconv.ParseInt(t.text, 10, 64)
	}
	if err != nil {
		r.add(CodeSyntax, t.at, t.end()-t.at, quote(t.text)+" is too large for a number", "")
	}
}

// afterNumber reports a name right after a number: a unit, or a forgotten "*".
func (r *report) afterNumber(tokens []token, i int, names Names) {
	if i+1 == len(tokens) || !isName(tokens[i+1]) || r.text(tokens[i].end(), tokens[i+1].at) != "" {
		return
	}
	t, next := tokens[i], tokens[i+1]
	both := r.text(t.at, next.end())
	switch {
	case next.at == t.end() && (next.text[0] == '_' || t.text == "0"):
		r.add(CodeSyntax, t.at, next.end()-t.at, quote(both)+" is no plain decimal number", "write digits and at most one point")
	case isUnit(tokens, i+1, names):
		r.add(CodeSyntax, t.at, next.end()-t.at, quote(both)+" has a unit in it",
			"write "+t.text+": a bare number is in the unit of the test; in a circuit in volts, amps and ohms")
	default:
		r.add(CodeSyntax, next.at, next.end()-next.at, "an operator is missing before "+quote(next.text),
			"to multiply, write "+t.text+" * "+next.text)
	}
}

// isName tells names from words of the language.
func isName(t token) bool {
	_, bad := refusedWords[t.text]
	return t.kind == nameToken && !joining[t.text] && !bad
}

// isUnit is true for a name that can only be the unit of the number before it.
func isUnit(tokens []token, i int, names Names) bool {
	if i == 0 || tokens[i-1].kind != numberToken || names.Has(tokens[i].text) {
		return false
	}
	called := i+1 < len(tokens) && tokens[i+1].is("(")
	return !called && !strings.ContainsAny(tokens[i].text, "._")
}

// bracket is one that is open; call tells a function's from a group's.
type bracket struct {
	token
	call bool
}

func (r *report) brackets(tokens []token) {
	var open []bracket
	for i, t := range tokens {
		switch {
		case t.is("("):
			open = append(open, bracket{t, i > 0 && isName(tokens[i-1])})
			if len(open) == maxDepth+1 {
				r.add(CodeLong, t.at, 1, "brackets are nested too deep", "work parts of it out in tests of their own")
			}
		case t.is(")") && len(open) == 0:
			r.add(CodeSyntax, t.at, 1, `this ")" closes nothing`, `delete it, or write the "(" that it belongs to`)
		case t.is(")"):
			open = open[:len(open)-1]
		case t.is(",") && (len(open) == 0 || !open[len(open)-1].call):
			r.comma(tokens, i)
		}
	}
	for _, b := range open {
		r.add(CodeSyntax, b.at, 1, `this "(" is never closed`, `write the ")" that it belongs to`)
	}
}

// comma reports one outside a function's brackets.
func (r *report) comma(tokens []token, i int) {
	if i > 0 && i+1 < len(tokens) {
		before, after := tokens[i-1], tokens[i+1]
		if before.kind == numberToken && after.kind == numberToken {
			r.add(CodeSyntax, before.at, after.end()-before.at, "a comma stands in a number", "write "+pointed(before.text, after.text))
			return
		}
	}
	r.add(CodeSyntax, tokens[i].at, 1, "a comma can only stand between the values of a function", "decimals are written with a point")
}

// pointed is a number with a decimal comma, or with commas between thousands,
// as it should be written.
func pointed(before, after string) string {
	if strings.Contains(before+after, ".") {
		return before + after
	}
	return before + "." + after
}
