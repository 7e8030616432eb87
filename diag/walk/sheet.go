package walk

import "benchlead/diag/tree"

// sheet is the results of one system's tests, of which most are unknown most of
// the time: those take no room. Tests are named by their place in System.Tests.
type sheet struct {
	system  *tree.System
	index   *tree.Index
	entries []entry // by test
	known   []Result
}

// entry says what a sheet holds of a test: from firstKnown on, the place in known.
type entry int16

const (
	noAnswer entry = iota
	noInput        // worked out, and not one input has an answer
	inHand         // being worked out
	toJudge        // there are answers
	firstKnown
)

func newSheet(sys *tree.System, ix *tree.Index, answers int) *sheet {
	return &sheet{
		system: sys, index: ix, entries: make([]entry, len(sys.Tests)),
		known: make([]Result, 0, answers+answers/2),
	}
}

// sheetOf is a sheet of results by id.
func sheetOf(sys *tree.System, results map[string]Result) *sheet {
	s := newSheet(sys, sys.Index(), len(results))
	for at, t := range sys.Tests {
		if r, ok := results[t.ID]; ok {
			s.enter(at, r)
		}
	}
	return s
}

func (s *sheet) enter(at int, r Result) {
	if r.Mark == Unknown && len(r.Lacks) == 0 {
		s.entries[at] = noAnswer
		return
	}
	s.entries[at] = firstKnown + entry(len(s.known))
	s.known = append(s.known, r)
}

// at is the result of a test; nil while it is unknown. It is not to be changed.
func (s *sheet) at(at int) *Result {
	if at < 0 || s.entries[at] < firstKnown {
		return nil
	}
	if r := &s.known[s.entries[at]-firstKnown]; r.Mark != Unknown {
		return r
	}
	return nil
}

// of is the result of the test of that id; nil while it is unknown, or when the
// system has no such test.
func (s *sheet) of(id string) *Result { return s.at(s.system.TestAt(id)) }

// lacks are the answers that an unknown test waits for: its own, or those that
// it is worked out from.
func (s *sheet) lacks(at int) []string {
	switch {
	case s.entries[at] >= firstKnown:
		return s.known[s.entries[at]-firstKnown].Lacks
	case s.entries[at] == noInput:
		return s.index.Tests[at].Leaves
	case s.system.Tests[at].Kind == tree.Worked:
		return nil
	}
	return []string{s.system.Tests[at].ID}
}

// waitsFor is the test to take for an answer to this one: itself, or the first
// that it is worked out from.
func (s *sheet) waitsFor(at int) *tree.Test {
	if lacks := s.lacks(at); len(lacks) > 0 {
		return s.system.Test(lacks[0])
	}
	return s.system.Tests[at]
}

// all is every result, by id.
func (s *sheet) all() map[string]Result {
	out := make(map[string]Result, len(s.system.Tests))
	for at, t := range s.system.Tests {
		switch e := s.entries[at]; {
		case e >= firstKnown:
			out[t.ID] = s.known[e-firstKnown]
		case e == noInput:
			out[t.ID] = Result{Test: t, Mark: Unknown, Lacks: s.index.Tests[at].Leaves}
		default:
			out[t.ID] = Result{Test: t, Mark: Unknown}
		}
	}
	return out
}
