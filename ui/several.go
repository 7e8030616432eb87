package ui

import (
	"fmt"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// checkAll looks at each of several answers on a line before the first is recorded: half
// a line that is recorded is soon typed twice.
func (s *Session) checkAll(actions []Action) error {
	if len(actions) < 2 {
		return nil
	}
	for _, a := range actions {
		if test := s.pos.System.Test(a.Test); test != nil {
			if err := s.check(test, a.Text); err != nil {
				return fmt.Errorf("%s: %w. Nothing of the line was recorded", test.ID, err)
			}
		}
	}
	return nil
}

// check says why a text is no answer to a test.
func (s *Session) check(test *tree.Test, text string) error {
	switch test.Kind {
	case tree.Observed:
		_, err := pick(test.Choices, text)
		return err
	case tree.Worked:
		return nil // which is said where it is answered
	}
	reading, err := measure.Parse(text, test.Function)
	if err == nil {
		_, err = inTestUnit(test, reading, text)
	}
	if err == nil {
		return nil
	}
	for _, word := range strings.Fields(text) {
		if strings.Contains(word, "_") {
			return noTest(s.pos.System, word)
		}
	}
	return err
}

// testBehind says whether what stands behind a ";" begins with a test, as what stands
// before it did.
func testBehind(sys *tree.System, before []Action, words []string) error {
	if len(before) == 0 || len(words) == 0 || words[0] == ";" {
		return nil
	}
	if id, _ := testAhead(sys, words); id != "" {
		return nil
	}
	return fmt.Errorf("%w. Nothing of the line was recorded", noTest(sys, words[0]))
}

// noTest names a word that is none, with the nearest that is.
func noTest(sys *tree.System, word string) error {
	return fmt.Errorf("there is no test %q here%s", word, nearestTest(sys, word))
}
