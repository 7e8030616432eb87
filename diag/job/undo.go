package job

import (
	"fmt"
	"slices"
)

// NotUndoable says why an event can't be taken back. By is the later event that
// stands in the way, 0 when there is none.
type NotUndoable struct {
	Seq int64
	By  int64
	Why string
}

// Error gives the reason and, when there is one, what to take back first.
func (n *NotUndoable) Error() string {
	if n.By == 0 {
		return fmt.Sprintf("event %d can't be taken back: %s", n.Seq, n.Why)
	}
	return fmt.Sprintf("event %d can't be taken back because of event %d: %s", n.Seq, n.By, n.Why)
}

// CanUndo says whether the event may be taken back, given the whole log; nil
// when it may. Otherwise the error is *NotUndoable, or Fold's when the log
// itself is wrong.
func CanUndo(events []Event, seq int64) error {
	gone, err := undone(events)
	if err != nil {
		return err
	}
	return canUndo(events, gone, seq)
}

// LastUndoable is the number of the latest event that may be taken back; ok is
// false when there is none, or the log is wrong.
func LastUndoable(events []Event) (seq int64, ok bool) {
	gone, err := undone(events)
	if err != nil {
		return 0, false
	}
	for _, e := range slices.Backward(events) {
		if canUndo(events, gone, e.Seq) == nil {
			return e.Seq, true
		}
	}
	return 0, false
}

func canUndo(events []Event, gone map[int64]int64, seq int64) error {
	no := func(by int64, why string) error { return &NotUndoable{Seq: seq, By: by, Why: why} }
	if seq < 1 || seq > int64(len(events)) {
		return no(0, fmt.Sprintf("this job has events 1 to %d", len(events)))
	}
	event := events[seq-1]
	if by, ok := gone[seq]; ok {
		return no(by, "it was taken back already")
	}
	if !canGo(event.Kind) {
		return no(0, fmt.Sprintf("%q is for good", string(event.Kind)))
	}
	for _, later := range events[seq:] {
		if _, ok := gone[later.Seq]; ok {
			continue
		}
		if why := rests(later, event); why != "" {
			return no(later.Seq, why)
		}
	}
	return nil
}

// canGo says whether events of this kind can be taken back at all.
func canGo(k Kind) bool {
	switch k {
	case KindIntake, KindOpened, KindTrees, KindUndone, KindClosed:
		return false
	}
	return true
}

// rests says, in words, how a later event rests on an earlier one; "" when it
// doesn't.
func rests(later, event Event) string {
	if later.Kind == KindClosed {
		return "the job was closed on the strength of all that came before"
	}
	switch event.Kind {
	case KindCorrected:
		if later.Kind == KindCorrected {
			return "it was corrected again since; take that back first"
		}
	case KindRead, KindSeen, KindCant:
		return restsOnAnswer(later)
	case KindDone, KindTicked:
		return restsOnWork(later, event)
	case KindAgreed:
		return restsOnStep(later, event.Agreed.Repair)
	case KindLined:
		return restsOnStep(later, event.Lined.Repair)
	case KindAsked:
		switch later.Kind {
		case KindTicked, KindLined:
			return "work was done on the strength of it; take that back first"
		case KindDrawn:
			return "a piece was drawn from the parts bin on the strength of it; take that back first"
		}
	case KindDrawn:
		switch later.Kind {
		case KindTicked, KindLined, KindAsked:
			return "work or an answer of the owner followed it; take that back first"
		}
	case KindChosen:
		switch later.Kind {
		case KindBinned:
			return "a piece went into the parts bin since; take that back first"
		case KindDrawn:
			return "a piece was drawn from the parts bin for it; take that back first"
		case KindLined, KindAsked:
			return "work or an answer of the owner followed it; take that back first"
		case KindTicked:
			return fmt.Sprintf("repair %s of the chosen path is done; take that back first", later.Ticked.Repair)
		}
	case KindSafe:
		if later.Kind == KindOpened {
			return "the job was opened again since, and make-safe is asked anew anyway"
		}
	}
	return ""
}

// restsOnStep is rests for a step towards a repair: a term, or a checklist's line.
func restsOnStep(later Event, repair string) string {
	if later.Kind == KindTicked && later.Ticked.Repair == repair {
		return fmt.Sprintf("repair %s was done on the strength of it; take that back first", repair)
	}
	return ""
}

func restsOnAnswer(later Event) string {
	switch later.Kind {
	case KindDone:
		return fmt.Sprintf("work %s was done since and changed the machine; take that back first", later.Done.Work)
	case KindTicked:
		return fmt.Sprintf("repair %s was done since and changed the machine; take that back first", later.Ticked.Repair)
	case KindChosen:
		return "a repair path was chosen on the strength of it; take that back first"
	case KindBinned:
		return "a piece went into the parts bin on the strength of it; take that back first"
	}
	return ""
}

func restsOnWork(later, event Event) string {
	switch later.Kind {
	case KindChosen:
		return "a repair path was chosen since; take that back first"
	case KindBinned:
		return "a piece went into the parts bin since; take that back first"
	}
	if test := answers(later); test != "" && slices.Contains(stales(event), test) {
		return fmt.Sprintf("test %s was answered again since; take that answer back first", test)
	}
	return ""
}
