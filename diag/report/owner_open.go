package report

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/counsel"
	"benchlead/diag/tree"
)

// mostAmiss is how many readings that are not right a message holds, and mostLikely how
// many faults are named of those that are not ruled out.
const (
	mostAmiss  = 2
	mostLikely = 3
)

// undecided says that no fault is found, and that this is known from the job itself.
func (d Document) undecided() bool { return len(d.Findings) == 0 && !d.lost }

// testing says that a job is open and nothing is found yet: the tests go on.
func (d Document) testing() bool { return d.undecided() && d.Outcome == "" && d.Work == nil }

// amiss are the readings whose latest value is not what a sound machine shows. One that is
// close to the limit is undecided, and one in dispute is no fact.
func (d Document) amiss() []plainly {
	var out []plainly
	for _, r := range d.Readings {
		if len(r.Taken) == 0 {
			continue
		}
		switch p := r.Taken[len(r.Taken)-1].plain; p.judged {
		case plainLow, plainHigh:
			out = append(out, p)
		}
	}
	return out
}

// disputed says in a sentence that readings don't agree and are taken again; empty when
// they do. Their values are for the bench.
func (d Document) disputed() string {
	var titles []string
	for _, r := range d.Readings {
		if n := len(r.Taken); n > 0 && r.Taken[n-1].plain.judged == plainOpen {
			titles = append(titles, tree.InSentence(r.Title))
		}
	}
	switch {
	case len(titles) == 0:
		return ""
	case d.Outcome == "":
		return "Readings that do not agree yet are taken again: " + strings.Join(titles, "; ") + "."
	}
	return "Some readings did not agree, and nothing is said by them: " + strings.Join(titles, "; ") + "."
}

// undecidedWrong is what stands in place of the findings while there are none: what was
// read that is not right, and that it is not decided what it comes from.
func undecidedWrong(d Document, s section) section {
	s.Head = "What we have seen" + soFar(d)
	amiss := d.amiss()
	switch {
	case len(amiss) == 0 && d.Outcome == "" && len(d.Readings) == 0:
		s.Says = []string{"Nothing was tested yet."}
	case len(amiss) == 0:
		s.Says = []string{"We have not found anything wrong" + soFar(d) + "."}
	case d.Outcome == "":
		s.Says = []string{"Not everything is as it should be. What it comes from is not decided yet."}
	default:
		s.Says = []string{"Not everything is as it should be. What it comes from was not found."}
	}
	if says := d.disputed(); says != "" {
		s.Says = append(s.Says, says)
	}
	for _, p := range amiss {
		s.Items = append(s.Items, item{Mark: "-", Text: p.sentence()})
	}
	return s
}

// nextPlain is what the shop does next while it tests, in a sentence for the owner.
func (d Document) nextPlain() string {
	switch {
	case !d.testing():
		return ""
	case d.step == "":
		return "The tests that we have for it are done. We talk with you about what comes next."
	}
	return "Next we test this: " + tree.InSentence(strings.TrimRight(d.step, ".:")) + end(d.step)
}

// end is the full stop behind a title; a question has its mark.
func end(title string) string {
	if strings.HasSuffix(title, "?") {
		return ""
	}
	return "."
}

// notRuledOut is how many faults are open while the tests go on, with the few that fit
// the readings best.
func notRuledOut(d Document, s section) section {
	open := len(s.Items)
	s = section{Head: "What is not ruled out yet"}
	switch open {
	case 0:
		return s
	case 1:
		s.Says = []string{"One possible fault is not ruled out yet."}
	default:
		s.Says = []string{fmt.Sprintf("%d possible faults are not ruled out yet.", open)}
	}
	if len(d.likely) > 0 {
		s.Says = append(s.Says, "These fit best what was read so far; none of them is shown: "+strings.Join(d.likely, "; ")+".")
	}
	return s
}

// fits keeps the faults that the suspects hold likeliest, for the owner.
func (d *Document) fits(c counsel.Counsel) {
	d.likely = nil
	if c.NoneFits != "" {
		return
	}
	for _, f := range c.Faults {
		cleared := slices.ContainsFunc(d.Cleared, func(l FaultLine) bool { return l.Fault == f.ID })
		if !cleared && c.Readings > 0 && f.P >= likelyEnough && len(d.likely) < mostLikely {
			d.likely = append(d.likely, tree.InSentence(f.Fault.Title))
		}
	}
}

// likelyEnough is how likely a fault must be to be named to the owner before it is shown.
const likelyEnough = 0.2

// messageAmiss is what was read that is not right, for the telephone.
func messageAmiss(d Document) string {
	amiss := d.amiss()
	if !d.undecided() || len(amiss) == 0 {
		return d.disputed()
	}
	said := []string{"Not as it should be:"}
	for i, p := range amiss {
		if i == mostAmiss {
			said = append(said, fmt.Sprintf("And %d more.", len(amiss)-mostAmiss))
			break
		}
		said = append(said, p.sentence())
	}
	if d.Outcome == "" {
		return strings.Join(append(said, "What it comes from is not decided yet."), " ")
	}
	return strings.Join(append(said, "What it comes from was not found."), " ")
}
