package formula

import (
	"fmt"
	"strings"

	"benchlead/diag/source"
)

// The codes of what can be wrong with a formula.
const (
	CodeSyntax    source.Code = "formula-syntax"    // can't be read
	CodeLong      source.Code = "formula-long"      // too long, or too deep
	CodeName      source.Code = "formula-name"      // no such name
	CodeFunction  source.Code = "formula-function"  // no such function
	CodeArguments source.Code = "formula-arguments" // too few or too many values
	CodeUnit      source.Code = "formula-unit"      // volts where amps are wanted
	CodeKind      source.Code = "formula-kind"      // number, words or yes-no in the wrong place
	CodeEqual     source.Code = "formula-equal"     // numbers compared for equality
	CodeWord      source.Code = "formula-word"      // a word that is never there
	CodeZero      source.Code = "formula-zero"      // divided by 0
)

// report gathers what is wrong with one formula. Spots count characters of the
// text from 0.
type report struct {
	runes  []rune
	origin source.Origin
	issues source.Issues
}

func (r *report) add(code source.Code, at, length int, message, hint string) {
	r.issues = append(r.issues, source.Issue{
		Code: code, Place: r.place(at, length), Message: message, Hint: hint,
	})
}

// place maps a spot to the file. What it covers ends with its line.
func (r *report) place(at, length int) source.Place {
	line, column := 1, 1
	at = min(max(at, 0), len(r.runes))
	for _, c := range r.runes[:at] {
		column++
		if c == '\n' {
			line, column = line+1, 1
		}
	}
	end := at
	for end < len(r.runes) && end < at+length && r.runes[end] != '\n' {
		end++
	}
	return r.origin.At(line, column, max(end-at, 1))
}

// text is the piece of the formula between two spots, on one line.
func (r *report) text(from, to int) string {
	return strings.Join(strings.Fields(string(r.runes[from:to])), " ")
}

func quote(s string) string { return `"` + s + `"` }

// known is a hint that lists what may stand there, if it isn't too much.
func known(names []string) string {
	const most = 12
	if len(names) == 0 {
		return "only numbers and functions can be used here"
	}
	if len(names) > most {
		return fmt.Sprintf("known here: %s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return "known here: " + strings.Join(names, ", ")
}
