package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/counsel"
)

// suspected shows the suspects, or says one of them in counts.
func (s *Session) suspected(pick int) (Reply, error) {
	list := s.Counsel().Suspects
	switch {
	case pick == 0 || len(list) == 0:
		return Reply{Show: Suspected}, nil
	case pick > len(list):
		return Reply{}, fmt.Errorf("%d is no number of the list; \"suspects\" shows it", pick)
	}
	return Reply{Said: []string{list[pick-1].Account}}, nil
}

// tell takes a test of those that would tell most, as if it had been asked for by
// name. One that is worth taking only after some work is not: the walk knows when
// that work may be done.
func (s *Session) tell(ctx context.Context, pick int) (Reply, error) {
	if why := s.Unweighed(); why != "" {
		return Reply{}, errors.New(why)
	}
	tests := s.Counsel().Tests
	switch {
	case len(tests) == 0:
		return Reply{}, fmt.Errorf("no test that is left would tell us much; \"take\" and a name takes any")
	case pick == 0:
		return Reply{Show: Suspected}, nil
	case pick > len(tests):
		return Reply{}, fmt.Errorf("%d is no number of the list; \"suspects\" shows it", pick)
	}
	t := tests[pick-1]
	if t.After != nil {
		return Reply{Said: []string{fmt.Sprintf("%s is worth taking after this work: %s. Do that work when it is asked for, then: take %s. Nothing was taken.",
			t.Test.Title, workTitles(t), t.Test.ID)}}, nil
	}
	return s.Do(ctx, Action{Verb: Take, Test: t.Test.ID})
}

// Doubted says whether the suspects hold a finding to be unlikely.
func (s *Session) Doubted(fault string) bool {
	return slices.ContainsFunc(s.Counsel().Doubts, func(d counsel.Doubt) bool { return d.Fault.ID == fault })
}

// foundWord is what a finding is called.
func (s *Session) foundWord(fault string) string {
	if s.Doubted(fault) {
		return "Found, in doubt"
	}
	return "Found"
}

// beforeBuying is what the suspects have to say before a way to repair is chosen.
func (s *Session) beforeBuying() []string {
	c := s.Counsel()
	var out []string
	had := map[string]bool{}
	for i, l := range doubtLines(c.Doubts) {
		if again := c.Doubts[i].Repeat; again != nil {
			had[again.ID] = true
		}
		out = append(out, "In doubt: "+l)
	}
	if lead := s.Leaders(); len(out) > 0 && len(lead) > 0 {
		out = append(out, "The readings fit better: "+strings.Join(lead, ", ")+".")
	}
	for i, l := range againLines(c.Again) {
		if !had[c.Again[i].Test.ID] { // a doubt has named it
			out = append(out, "Fits nothing: "+l)
		}
	}
	for _, l := range notYetLines(c.NotYet) {
		out = append(out, "Don't buy yet: "+l)
	}
	return out
}
