package report

import (
	"slices"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// verdict fills the lists of faults. The findings are those before any repair;
// the other lists are as the job stands, or as it was closed.
func (s *story) verdict(d *Document) {
	d.Verdict = Sentence(s.before.Verdict, s.system, s.facts.Intake.Complaint)
	if s.lost {
		d.Verdict, d.lost = lostVerdict, true
	}
	s.findings(d)
	switch {
	case s.facts.Closed != nil:
		s.frozen(d)
	default:
		s.current(d)
	}
	s.ruledOutEarlier(d)
	for _, u := range walk.Undecided(s.lib, s.now, s.facts) {
		line := Unclear{Test: u.Test.Title, Why: source.CleanLine(u.Why)}
		if u.Take != nil {
			line.Take = u.Take.Title
		}
		d.Unclear = append(d.Unclear, line)
	}
}

// findings are those that the readings show; with other trees than the job was
// worked with, those that the log recorded.
func (s *story) findings(d *Document) {
	found := s.before.Verdict.Found
	for _, f := range found {
		if s.recordedOnly() && !slices.Contains(s.recordedFound(), f.Fault.ID) {
			continue
		}
		line := Finding{Fault: f.Fault.ID, Title: f.Fault.Title, Says: f.Fault.Says}
		for _, e := range f.Evidence {
			r := s.before.Results[e.Test.ID]
			line.Evidence = append(line.Evidence, evidenceWords(e, r))
			line.plain = append(line.plain, plain(r, s.values))
		}
		d.Findings = append(d.Findings, line)
	}
	if !s.recordedOnly() {
		return
	}
	for _, id := range s.recordedFound() {
		known := slices.ContainsFunc(found, func(f walk.Finding) bool { return f.Fault.ID == id })
		if !known {
			d.Findings = append(d.Findings, Finding{
				Fault: source.CleanLine(id), Title: s.faultTitle(id),
				Evidence: []string{"as recorded; today's trees don't show it"},
			})
		}
	}
}

// recordedFound are the findings before a repair as they were shown then.
func (s *story) recordedFound() []string {
	if s.repaired || s.facts.Closed == nil {
		return s.recorded
	}
	return s.facts.Closed.Found
}

// recordedOnly says that the log's own findings go before what today's trees
// make of the readings.
func (s *story) recordedOnly() bool {
	return s.facts.Digest != s.lib.Digest && s.recordedFound() != nil
}

func (s *story) current(d *Document) {
	v := s.now.Verdict
	if s.repaired && !s.lost {
		d.Now = Standing(s.lib, s.now, s.facts)
		for _, f := range v.Found {
			d.Still = append(d.Still, FaultLine{Fault: f.Fault.ID, Title: f.Fault.Title, Because: s.because(f.Fault.ID)})
		}
	}
	for _, c := range v.Cleared {
		d.Cleared = append(d.Cleared, FaultLine{Fault: c.Fault.ID, Title: c.Fault.Title, Because: s.because(c.Fault.ID)})
	}
	for _, m := range v.Masked {
		d.Masked = append(d.Masked, FaultLine{Fault: m.Fault.ID, Title: m.Fault.Title, Because: s.because(m.Fault.ID)})
	}
	for _, u := range v.Untested {
		d.Untested = append(d.Untested, FaultLine{Fault: u.Fault.ID, Title: u.Fault.Title, Because: s.because(u.Fault.ID)})
	}
}

// frozen takes the lists from the closing event.
func (s *story) frozen(d *Document) {
	c := s.facts.Closed
	if s.repaired {
		d.Now = source.CleanLine(c.Verdict)
		d.Still = s.lines(c.Found)
	} else if c.Verdict != "" {
		d.Verdict = source.CleanLine(c.Verdict)
	}
	d.Cleared, d.Masked, d.Untested = s.lines(c.Cleared), s.lines(c.Masked), s.lines(c.Untested)
}

func (s *story) lines(ids []string) []FaultLine {
	var out []FaultLine
	for _, id := range ids {
		out = append(out, FaultLine{Fault: source.CleanLine(id), Title: s.faultTitle(id), Because: s.because(id)})
	}
	return out
}

// because says why a fault is in its list, as the readings stand; empty when
// nothing speaks.
func (s *story) because(id string) string {
	is := func(f *tree.Fault) bool { return f.ID == id }
	v := s.now.Verdict
	for _, c := range v.Cleared {
		if is(c.Fault) && c.Removed {
			return "taken off the machine"
		}
		if is(c.Fault) {
			return s.evidence(c.Evidence)
		}
	}
	for _, f := range v.Found {
		if is(f.Fault) {
			return s.evidence(f.Evidence)
		}
	}
	for _, m := range v.Masked {
		if is(m.Fault) {
			return "until this is repaired: " + tree.InSentence(m.By.Title)
		}
	}
	for _, u := range v.Untested {
		if is(u.Fault) && len(u.Doubt) > 0 {
			return "readings contradict each other: " + s.evidence(u.Doubt)
		}
	}
	return ""
}

func (s *story) evidence(list []walk.Evidence) string {
	text := ""
	for i, e := range list {
		if i > 0 {
			text += "; "
		}
		text += evidenceWords(e, s.now.Results[e.Test.ID])
	}
	return text
}

// ruledOutEarlier marks what is open after a repair and was ruled out before it.
// Readings of before count no longer for the bench; an owner is not told that a
// battery was not tested which was. Other trees than the job's own don't say it.
func (s *story) ruledOutEarlier(d *Document) {
	if s.facts.Digest != s.lib.Digest {
		return
	}
	for _, list := range [][]FaultLine{d.Masked, d.Untested} {
		for i := range list {
			is := func(c walk.Clearing) bool { return c.Fault.ID == list[i].Fault }
			list[i].earlier = slices.ContainsFunc(s.before.Verdict.Cleared, is)
			if list[i].earlier && list[i].Because == "" {
				list[i].Because = "tested before the repair, not since"
			}
		}
	}
}
