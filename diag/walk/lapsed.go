package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// Lapsed is what answers told of a machine that work or a repair made unknown again,
// and that nobody has asked since. It is no finding any more, and no reason to take the
// machine for sound either.
type Lapsed struct {
	Found   []*tree.Fault // shown then; neither shown nor cleared now, and not repaired since
	Cleared []*tree.Fault // cleared then, undecided now
	Failed  []*tree.Test  // safety functions that were seen to fail, with no repair since
}

// LapsedOf works out what has lapsed in a job.
func LapsedOf(lib *tree.Library, facts job.Facts, p Position) Lapsed {
	var out Lapsed
	if p.System == nil || facts.Intake == nil {
		return out
	}
	then, ev := earlier(lib, p.System, facts)
	now := weigh(lib, p.System, sheetOf(p.System, p.Results))
	gone := (&where{lib: lib, system: p.System, facts: facts}).removed()
	for at, f := range p.System.Faults {
		if now.verdicts[at] != (standing{}) || gone[f.ID] {
			continue
		}
		switch is := ev.verdicts[at]; {
		case is.found > 0 && is.cleared == 0:
			if mendedLast(lib, facts, f.ID) < latest(then, ev.found[is.found-1].Evidence) {
				out.Found = append(out.Found, f)
			}
		case is.cleared > 0 && is.found == 0:
			out.Cleared = append(out.Cleared, f)
		}
	}
	for _, id := range SafetyOf(p.System, facts) {
		if r := then.of(id); r != nil && p.Results[id].Mark == Unknown && Dangerous(*r) && r.Seq > facts.MendedLast {
			out.Failed = append(out.Failed, r.Test)
		}
	}
	return out
}

// earlier judges the tests as they were last answered, whatever was done since.
func earlier(lib *tree.Library, sys *tree.System, facts job.Facts) (*sheet, *evidence) {
	values, _ := Values(sys, *facts.Intake)
	j := &judge{sheet: newSheet(sys, sys.Index(), len(facts.Answers)), facts: facts, values: values, earlier: true}
	then := j.all()
	return then, weigh(lib, sys, then)
}

// latest is the number of the last answer among some evidence.
func latest(s *sheet, evidence []Evidence) int64 {
	var seq int64
	for _, e := range evidence {
		if r := s.of(e.Test.ID); r != nil {
			seq = max(seq, r.Seq)
		}
	}
	return seq
}

// mendedLast is the number of the event with which a fault was last repaired; 0 when
// it never was.
func mendedLast(lib *tree.Library, facts job.Facts, fault string) int64 {
	var seq int64
	for id, at := range facts.RepairedAt {
		if r := lib.Repairs[id]; r != nil && slices.Contains(r.Clears, fault) {
			seq = max(seq, at)
		}
	}
	return seq
}
