package job

import (
	"fmt"
	"slices"
)

// Fold works out what a job's events amount to. events are the whole log, by
// number: 1, 2, 3 ... An event that was taken back counts for nothing. The error
// is a *BadEvent that names the event at fault; it wraps ErrNewer when the log
// holds a kind of event that is not known here.
func Fold(events []Event) (Facts, error) {
	gone, err := undone(events)
	if err != nil {
		return Facts{}, err
	}
	f := Facts{
		Safe: map[string]string{}, LastSafe: map[string]Confirmed{}, RepairedAt: map[string]int64{}, Answers: make(map[string][]Answer, len(events)),
		epochs: map[string]int{}, works: map[string]tally{},
		declined: map[string]int64{}, heeded: map[hazard]int64{},
	}
	for _, e := range events {
		if _, ok := gone[e.Seq]; !ok {
			f.add(e)
		}
		f.Last = e.Seq
	}
	return f, nil
}

// undone checks the log as a whole and gives the events that were taken back,
// each with the event that did so. Whether others depended on them is CanUndo's
// to say before the fact: a log that an older program wrote by other rules must
// still open.
func undone(events []Event) (map[int64]int64, error) {
	gone := map[int64]int64{}
	closed := false
	for i, e := range events {
		bad := func(err error) error { return &BadEvent{Seq: e.Seq, Kind: e.Kind, Err: err} }
		if e.Seq != int64(i)+1 {
			return nil, bad(fmt.Errorf("it stands where event %d belongs; the log is out of order or has a gap", i+1))
		}
		if err := admit(e, closed); err != nil {
			return nil, err
		}
		closed = closed || e.Kind == KindClosed
		if e.Kind != KindUndone {
			continue
		}
		of := e.Undone.Seq
		if by, ok := gone[of]; ok {
			return nil, bad(fmt.Errorf("it takes back event %d, which event %d took back already", of, by))
		}
		if !canGo(events[of-1].Kind) {
			return nil, bad(fmt.Errorf("it takes back event %d, but %q can never be taken back", of, string(events[of-1].Kind)))
		}
		gone[of] = e.Seq
	}
	return gone, nil
}

// add counts one event in.
func (f *Facts) add(e Event) {
	f.everFound(e)
	switch e.Kind {
	case KindIntake:
		f.Intake, f.Digest = e.Intake, e.Intake.Digest
	case KindCorrected:
		f.Intake = f.Intake.corrected(e.Corrected)
	case KindOpened:
		clear(f.Safe)
	case KindSafe:
		for item, setting := range e.Safe.Confirmed {
			f.Safe[item], f.LastSafe[item] = setting, Confirmed{e.Seq, setting}
			f.Unmade = slices.DeleteFunc(f.Unmade, func(id string) bool { return id == item })
		}
	case KindHeeded:
		f.heeded[hazard{e.Heeded.Caution, e.Heeded.Test}] = e.Seq
	case KindRead, KindSeen, KindCant:
		f.answer(e)
	case KindDone:
		f.Worked = append(f.Worked, Worked{e.Seq, e.Done.Work})
		f.works[e.Done.Work] = tally{f.works[e.Done.Work].count + 1, e.Seq}
		f.stale(e.Done.Stales)
	case KindNoted:
		f.Notes = append(f.Notes, Note{e.Seq, e.At, e.Noted.Text})
	case KindTrees:
		f.Digest = e.Trees.Digest
		f.History = append(f.History, Change{e.Seq, e.At, *e.Trees})
	case KindChosen:
		if f.Chosen != nil && len(f.Ticked) > 0 {
			f.Earlier = append(f.Earlier, *f.Chosen)
		}
		f.Chosen, f.ChosenAt, f.Ticked, f.Agreed, f.Lined = e.Chosen, e.Seq, nil, nil, nil
	case KindAgreed:
		f.Agreed = append(f.Agreed, *e.Agreed)
	case KindTicked:
		// Hands were in the machine: nobody knows any more how it stands.
		clear(f.Safe)
		f.Ticked = append(f.Ticked, e.Ticked.Repair)
		f.Repaired = append(f.Repaired, e.Ticked.Repair)
		if f.MendedAt == 0 {
			f.MendedAt = e.Seq
		}
		f.MendedLast, f.RepairedAt[e.Ticked.Repair] = e.Seq, e.Seq
		f.stale(e.Ticked.Stales)
	case KindLined:
		f.Lined = append(f.Lined, *e.Lined)
	case KindAsked:
		f.Asked = append(f.Asked, Answered{e.Seq, e.At, *e.Asked})
	case KindServed:
		f.Served = append(f.Served, *e.Served)
		if !e.Served.Left {
			f.ServedLast = e.Seq
		}
	case KindBinned:
		f.Binned = append(f.Binned, Piece{Seq: e.Seq, Binned: *e.Binned})
	case KindDrawn:
		f.Drawn = append(f.Drawn, *e.Drawn)
	case KindClosed:
		f.Closed = e.Closed
	}
}

func (f *Facts) everFound(e Event) {
	if e.Shown == nil {
		return
	}
	for _, fault := range *e.Shown {
		if !slices.Contains(f.EverFound, fault) {
			f.EverFound = append(f.EverFound, fault)
		}
	}
}

// unmake forgets how items stand that were asked for and not confirmed.
func (f *Facts) unmake(items []string) {
	for _, item := range items {
		delete(f.Safe, item)
		if !slices.Contains(f.Unmade, item) {
			f.Unmade = append(f.Unmade, item)
		}
	}
}

func (f *Facts) answer(e Event) {
	if e.Kind == KindCant {
		f.unmake(e.Cant.Unmade)
	}
	if e.Kind == KindCant && e.Cant.Work != "" {
		f.declined[e.Cant.Work] = e.Seq
		return
	}
	test := answers(e)
	f.Answers[test] = append(f.Answers[test], Answer{
		Seq: e.Seq, At: e.At, Epoch: f.epochs[test],
		Read: e.Read, Seen: e.Seen, Cant: e.Cant,
	})
}

// stale makes tests unknown again. A test named twice in one event is staled
// once.
func (f *Facts) stale(tests []string) {
	had := map[string]bool{}
	for _, test := range tests {
		if !had[test] {
			f.epochs[test]++
			had[test] = true
		}
	}
}

// answers is the test that an event answers, or "".
func answers(e Event) string {
	switch {
	case e.Read != nil:
		return e.Read.Test
	case e.Seen != nil:
		return e.Seen.Test
	case e.Cant != nil:
		return e.Cant.Test
	}
	return ""
}

// stales are the tests that an event made unknown again.
func stales(e Event) []string {
	switch {
	case e.Done != nil:
		return e.Done.Stales
	case e.Ticked != nil:
		return e.Ticked.Stales
	}
	return nil
}
