package mutant

import (
	"cmp"
	"slices"
	"strings"

	"benchlead/diag/shape"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// Kind says in which way a library is broken.
type Kind string

// The kinds of mutant.
const (
	Cut    Kind = "cut"    // the cut of a band, times a factor
	Swap   Kind = "swap"   // two routes of a step lead where the other did
	Bypass Kind = "bypass" // a step is taken out, and what led to it leads on
)

// Kinds are all of them, in the order in which they are told.
var Kinds = []Kind{Cut, Swap, Bypass}

// Mutant is one way of breaking a library.
type Mutant struct {
	Kind Kind
	// Name tells it from all others: the file, what is changed and how. It has no
	// line number, so it stays the same while lines move.
	Name  string
	Place source.Place // of what is changed
	Says  string       // what was there and what is there now
	Touch Touch

	edits []edit
}

// Touch is what a mutant can make a difference to: a walk that never comes near
// any of it goes as before.
type Touch struct {
	Tree string // whose ways they are
	Ways []Way  // that lead elsewhere
	Test string // whose cut is moved
	// Lost is the fault of a find or clear step that is gone, and LostBy the tests
	// that it goes by. While they don't speak for the fault, such a step does nothing
	// but lead on.
	Lost   string
	LostBy []string
}

// Way is a step left by an answer; without an answer, by any.
type Way struct{ Step, Answer string }

// edit puts a text in the place of some bytes.
type edit struct {
	from, to int
	text     string
}

// Apply is the files with the mutant's one changed. The files given stay as they
// are.
func (m *Mutant) Apply(files []source.File) []source.File {
	out := slices.Clone(files)
	for i := range out {
		if out[i].Name != m.Place.File {
			continue
		}
		var b strings.Builder
		at := 0
		for _, e := range m.edits {
			b.WriteString(out[i].Text[at:e.from])
			b.WriteString(e.text)
			at = e.to
		}
		b.WriteString(out[i].Text[at:])
		out[i].Text = b.String()
	}
	return out
}

// Make lists every mutant of a library that loads without issues from these
// files: file by file by name, then as things stand in the file. The error names
// a place that is written in a way that can't be edited.
func Make(files []source.File, lib *tree.Library) ([]Mutant, error) {
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b source.File) int { return cmp.Compare(a.Name, b.Name) })
	var out []Mutant
	for i := range files {
		top, issues := shape.Parse(&files[i])
		if len(issues) > 0 {
			return nil, issues.Err()
		}
		p := &page{File: &files[i], lib: lib, lines: lineStarts(files[i].Text)}
		p.cuts(top)
		p.tree(top)
		if p.err != nil {
			return nil, p.err
		}
		out = append(out, p.made...)
	}
	return out, nil
}

// add notes a mutant with its edits in the order of the text.
func (p *page) add(m Mutant, edits ...edit) {
	slices.SortFunc(edits, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
	m.edits = edits
	m.Name = p.Name + ": " + m.Name
	p.made = append(p.made, m)
}
