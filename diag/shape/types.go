// Package shape reads YAML files written by people into plain structs that keep
// the place of every word, and reports all that doesn't fit at once: unknown
// and missing keys, wrong kinds, duplicates, references, nesting too deep.
// What the words mean is for others: trees, price books and cases are read
// through it.
//
// A shape is a struct whose tags say what is wanted. The tag `yaml` is the key;
// `is` says more of it:
//
//	required  the key must be there
//	plain     a bare value instead of a mapping stands for this key
//	key       the field takes the key, in a list written as a mapping (keyed)
//	keyed     the list is written as a mapping from an id to the rest
//
// A field named Place takes the place of the whole. The package imports only
// source.
package shape

import "benchlead/diag/source"

// Word is one line of text, harmless to print.
type Word struct {
	Text  string
	Place source.Place
}

// Prose is text that may run over several lines, harmless to print.
type Prose struct {
	Text  string
	Place source.Place
}

// Figure is a line of a drawing: its spaces count.
type Figure struct {
	Text   string
	Origin source.Origin
	Place  source.Place
}

// Number is a plain number. Given is false when the key was not there.
type Number struct {
	Value float64
	Given bool
	Place source.Place
}

// YesNo is true or false. Given is false when the key was not there.
type YesNo struct {
	Value bool
	Given bool
	Place source.Place
}

// Expression is a formula that is not compiled yet.
type Expression struct {
	Text   string
	Origin source.Origin
	Place  source.Place
}

// Pair is one line of a mapping from word to word.
type Pair struct {
	Key   Word `is:"key"`
	Value Word `is:"plain required"`
}

// Given says whether the text was there.
func (w Word) Given() bool { return w.Text != "" }

// Given says whether the text was there.
func (p Prose) Given() bool { return p.Text != "" }

// Given says whether the formula was there.
func (e Expression) Given() bool { return e.Text != "" }
