package ui

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// testNamed is the test of that name or title. The parts of a name may stand apart: who
// hears it hears no line between them.
func testNamed(sys *tree.System, name string) *tree.Test {
	if sys == nil {
		return nil
	}
	id := strings.ReplaceAll(name, " ", "_")
	at := slices.IndexFunc(sys.Tests, func(t *tree.Test) bool {
		return strings.EqualFold(t.ID, id) || strings.EqualFold(t.Title, name)
	})
	if at < 0 {
		return nil
	}
	return sys.Tests[at]
}

// testMeant is the test that is named, or the only one in whose name and title all of the
// words begin one. Its error names those that fit.
func testMeant(sys *tree.System, name string) (*tree.Test, error) {
	if name == "" {
		return nil, fmt.Errorf("which test? Write a word or two of it: take battery. \"left\" lists what is open")
	}
	if test := testNamed(sys, name); test != nil {
		return test, nil
	}
	like := testsLike(sys, name)
	switch {
	case len(like) == 1:
		return like[0], nil
	case len(like) > 1:
		var titles []string
		for _, t := range like {
			titles = append(titles, testToTake(t))
		}
		return nil, fmt.Errorf("%q fits several tests: %s", name, strings.Join(titles, "; "))
	}
	return nil, fmt.Errorf("there is no test %q here%s", name, nearestTest(sys, name))
}

// testsLike are the tests in whose name and title every one of the words begins one.
func testsLike(sys *tree.System, words string) []*tree.Test {
	if sys == nil {
		return nil
	}
	asked := tokens(strings.ReplaceAll(words, "_", " "))
	var out []*tree.Test
	for _, t := range sys.Tests {
		called := tokens(strings.ReplaceAll(t.ID, "_", " ") + " " + t.Title)
		if len(asked) > 0 && !slices.ContainsFunc(asked, func(w string) bool { return !stands(w, called) }) {
			out = append(out, t)
		}
	}
	return out
}

// testAhead is the test whose name the words begin with, and how many words that takes;
// empty when they begin with none. The parts of a name may stand apart.
func testAhead(sys *tree.System, words []string) (id string, taken int) {
	if sys == nil {
		return "", 0
	}
	for n := min(len(words), mostParts); n > 0; n-- {
		if t := sys.Test(strings.Join(words[:n], "_")); t != nil {
			return t.ID, n
		}
	}
	return "", 0
}

// mostParts is how many parts a name may have that is typed with its parts apart.
const mostParts = 6

func nearestTest(sys *tree.System, name string) string {
	if sys == nil {
		return ""
	}
	var ids []string
	for _, t := range sys.Tests {
		ids = append(ids, t.ID)
	}
	if near := source.Nearest(name, ids); near != "" {
		return "; did you mean " + near + "?"
	}
	return "; the word \"left\" lists what is open"
}
