package ui

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// Resumed says of a job that is opened again which one it is, and what is found so far.
func (s *Session) Resumed() []string {
	in := s.facts.Intake
	if in == nil {
		return nil
	}
	name := fmt.Sprintf("Job %d", s.id)
	for _, word := range []string{in.Machine, in.Owner, s.complaint()} {
		if word = source.CleanLine(word); word != "" {
			name += ", " + word
		}
	}
	out := []string{name + "."}
	if s.facts.Closed != nil { // what came of it is said next
		return out
	}
	var found []string
	for _, f := range s.pos.Verdict.Found {
		found = append(found, tree.InSentence(f.Fault.Title))
	}
	answers := len(s.Answered())
	switch {
	case len(found) > 0:
		return append(out, "Found so far: "+strings.Join(found, "; ")+".")
	case len(s.facts.Repaired) > 0:
		return append(out, "It was repaired. Nothing is found since.")
	case answers == 0:
		return append(out, "Nothing was tested yet.")
	case answers == 1:
		return append(out, "No fault is found so far, with one answer taken.")
	}
	return append(out, fmt.Sprintf("No fault is found so far, with %d answers taken.", answers))
}

// PutAside says whether the job was put aside and opened again.
func (s *Session) PutAside() bool {
	return slices.ContainsFunc(s.events, func(e job.Event) bool { return e.Kind == job.KindOpened })
}

// complaint is what the job came in for, in words.
func (s *Session) complaint() string {
	if s.pos.System != nil {
		if c := s.pos.System.Complaint(s.facts.Intake.Complaint); c != nil {
			return tree.InSentence(c.Title)
		}
	}
	return s.facts.Intake.Complaint
}
