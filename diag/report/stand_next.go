package report

import (
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// next is what has to be done next, for whoever passes by; empty when there is
// nothing.
func (s *story) next(d Document) string {
	switch d.State {
	case StateUnsafe:
		return s.nextUnsafe(d)
	case StateReady, StateNotProved, StateUnrepaired:
		if d.Outcome == "" {
			return "Close the job"
		}
		return "Tell the owner that it can be picked up"
	case StateSold:
		return "Hand its report over with it"
	case StateParted:
		return ""
	case StateForSale, StateForParts:
		return "Close the job"
	case StateApproval:
		return "Tell the owner what it costs, and ask"
	case StateRefused:
		return "Ask the owner what becomes of it"
	case StateParts:
		return s.nextParts(d)
	}
	return s.nextStep()
}

func (s *story) nextUnsafe(d Document) string {
	if d.Outcome != "" {
		return "Tell the owner in writing: nobody may use it"
	}
	if step := s.nextStep(); step != "" {
		return step
	}
	return "Keep it from being used"
}

func (s *story) nextParts(d Document) string {
	var names []string
	for _, l := range d.Work.Parts {
		if !l.InHand {
			names = append(names, tree.InSentence(l.Title))
		}
	}
	return "Wait for " + strings.Join(names, "; ")
}

// nextStep is what the walk waits for.
func (s *story) nextStep() string {
	p := s.now
	switch {
	case len(p.Danger) > 0:
		return "Look at the danger: " + p.Danger[0].Caution.Title
	case p.Term != nil:
		return "Confirm: " + p.Term.Title
	case p.Estimate != nil:
		return "Tell the owner what it costs, and ask"
	case p.Repair != nil:
		return p.Repair.Title
	case p.Stage == walk.AtService:
		return "Usual work before it is handed back, done or left out"
	case p.Work != nil:
		return p.Work.Title
	case p.Test != nil && s.repaired:
		return p.Test.Title + ", to be proved"
	case p.Test != nil:
		return p.Test.Title + ", to be tested"
	case s.lost:
		return ""
	}
	return "Decide what is done"
}
