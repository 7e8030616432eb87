// Package source knows where things stand in a text file and how to complain
// about them: a place is file:line:column, an issue is what is wrong there and
// what to write instead. Every reader of files written by people (trees, case
// files, price files) reports through it, so that all problems are shown at
// once, in order, in one form.
//
// It imports nothing of ours.
package source

// File is one text as it was read. Name is shown in messages; Text is the
// content after a byte-order mark was taken off and line ends were made "\n".
type File struct {
	Name string
	Text string
}

// Place is a spot in a file. Line and Column count from 1; Column counts
// characters, not bytes. Length is how many characters the caret line marks
// (0 marks one).
type Place struct {
	File   string
	Line   int
	Column int
	Length int
}

// Code names a kind of issue. It never changes once released, so that tests
// and editors can rely on it.
type Code string

// Issue is one thing wrong at one place.
type Issue struct {
	Code    Code
	Place   Place
	Message string // what is wrong, one line
	Hint    string // what to write instead, one line; may be empty
}

// Issues is what a reader of files reports: every issue, sorted by place. A
// nil or empty Issues means that nothing is wrong.
type Issues []Issue

// Origin maps a piece of text back to the file it came from: Lines[i] is the
// place of the first character of the piece's line i.
type Origin struct {
	Lines []Place
	// Rough is set when the piece doesn't stand in the file as it reads (folded
	// or escaped text): every spot in it is then reported at the first place.
	Rough bool
}
