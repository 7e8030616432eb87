package tree

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"benchlead/diag/source"
)

// CodeIdle is of what is no mistake, and that nothing makes use of.
const CodeIdle source.Code = "nothing-uses-it"

// Remarks are what was written and serves nothing: a test that nobody is ever led to,
// a point that no lead touches, a word of the trade that stands in no test. What is in
// a shared file need be of use to one system only.
func Remarks(lib *Library) source.Issues {
	r := remarks{tests: map[source.Place]string{}, points: map[source.Place]string{}, used: map[source.Place]bool{}, asked: set{}, terms: set{}}
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		r.system(lib, lib.Systems[id])
	}
	var out source.Issues
	idle := func(all map[source.Place]string, says, hint string) {
		for place, id := range all {
			if !r.used[place] && !r.asked[id] {
				out = append(out, source.Issue{Code: CodeIdle, Place: place, Message: fmt.Sprintf(says, id), Hint: hint})
			}
		}
	}
	idle(r.tests, "no tree, repair, hand back or worked-out test asks the test %q", "name it in a step of a tree, or take it away")
	idle(r.points, "no lead is ever put on the point %q, and the circuit has no part there", "name it in a test's leads, or take it away")
	for _, t := range lib.Terms {
		if !r.terms[t.Word] {
			out = append(out, source.Issue{Code: CodeIdle, Place: t.Place, Message: fmt.Sprintf("the word %q stands in no test, so nobody is ever told what it means", t.Word), Hint: "write it as the tests do, or take it away"})
		}
	}
	return out.Sorted()
}

// remarks gathers what there is, by its place, and what of it is used.
type remarks struct {
	tests, points map[source.Place]string
	used          map[source.Place]bool // points
	asked         set                   // tests: an id means the same in every system
	terms         set
}

func (r *remarks) system(lib *Library, sys *System) {
	var text strings.Builder
	for _, t := range sys.Tests {
		if !t.speaks() {
			r.tests[t.Place] = t.ID
		}
		text.WriteString(t.text())
	}
	points := set{}
	for _, p := range sys.Points {
		r.points[p.Place] = p.ID
		text.WriteString(p.Title + "\n")
	}
	for _, id := range lib.asked(sys) {
		r.asked[id] = true
	}
	sys.touched(points)
	for _, p := range sys.Points {
		r.used[p.Place] = r.used[p.Place] || points[p.ID]
	}
	for _, term := range lib.TermsIn(text.String()) {
		r.terms[term.Word] = true
	}
}

// speaks says whether the test is of use without being asked: one that is worked out
// comes by itself, and one that clears something, shows a danger or says which test
// to take does so whoever brings its reading.
func (t *Test) speaks() bool {
	return t.Kind == Worked ||
		slices.ContainsFunc(t.Bands, func(b Band) bool { return len(b.Clears) > 0 || b.Danger != "" || b.Take != "" }) ||
		slices.ContainsFunc(t.Choices, func(c Choice) bool { return len(c.Clears) > 0 || c.Danger != "" || c.Take != "" })
}

// text is all that is read of a test at the bench.
func (t *Test) text() string {
	out := []string{t.Title, t.Tell, t.Why, t.Mistake, t.Alone, t.Scale}
	for _, b := range t.Bands {
		out = append(out, b.Says)
	}
	for _, c := range t.Choices {
		out = append(out, c.Name, c.Says)
	}
	return strings.Join(out, "\n") + "\n"
}

// asked are the tests of a system that something leads to.
func (l *Library) asked(sys *System) []string {
	out := slices.Clone(sys.HandBack)
	by := func(all []Evidence) {
		for _, e := range all {
			out = append(out, e.Test)
		}
	}
	by(sys.Well)
	for _, t := range l.TreesFor(sys.ID) {
		for _, s := range t.Steps {
			out = append(out, s.Test)
			by(s.By)
		}
	}
	for _, p := range l.RepairsFor(sys.ID) {
		out = append(out, p.Checks...)
	}
	for _, a := range sys.Agree {
		out = append(append(out, a.Each...), a.Most)
	}
	for _, t := range sys.Tests {
		out = append(out, t.Inputs()...)
		for _, b := range t.Bands {
			out = append(out, b.Take)
		}
		for _, c := range t.Choices {
			out = append(out, c.Take)
		}
	}
	if sys.Circuit != nil {
		for _, s := range sys.Circuit.Stages {
			out = append(out, s.First...)
		}
	}
	return out
}

// touched puts into a set the points that a lead, the sketch or the circuit touches.
func (s *System) touched(into set) {
	for _, t := range s.Tests {
		into[t.Red], into[t.Black] = true, true
	}
	for _, p := range s.Sketch.Marks {
		into[p] = true
	}
	if s.Circuit == nil {
		return
	}
	into[s.Circuit.Ground] = true
	for _, p := range s.Circuit.Parts {
		for _, end := range []string{p.From, p.To, p.Coil[0], p.Coil[1], p.Sense} {
			into[end] = true
		}
	}
}
