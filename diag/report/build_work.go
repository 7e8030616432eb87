package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// law is what a repair had to meet, with what was confirmed of it: what had to
// be true first, then each rule.
func (s *story) law(r *tree.Repair, agreed []job.Agreed) []Law {
	var out []Law
	for _, term := range walk.Terms(r) {
		l := Law{Cite: term.Title, Says: term.Says, Ways: slices.Concat(term.Items, term.Ways)}
		for _, a := range agreed {
			if a.Repair == r.ID && a.Term == term.Title {
				l.Met = cmp.Or(source.CleanLine(a.Way), allConfirmed)
			}
		}
		out = append(out, l)
	}
	return out
}

// allConfirmed is what is met when a term has no ways to choose from.
const allConfirmed = "confirmed"

// Mark is how a way stands: [x] when it was confirmed, [ ] when not.
func (l Law) Mark(way string) string {
	if l.Met == allConfirmed || l.Met == way {
		return "[x]"
	}
	return "[ ]"
}

// gradeWords turns "part=grade" of the record into words.
func (s *story) gradeWords(text string) string {
	id, grade, ok := strings.Cut(text, "=")
	if part := s.lib.Parts[id]; part != nil && ok {
		return part.Title + ", " + source.CleanLine(grade)
	}
	return source.CleanLine(text)
}

func offered(o repair.Offers) []Offer {
	var out []Offer
	for _, p := range o.Paths {
		line := Offer{Title: p.Title(), Minutes: p.Minutes, Days: p.LeadDays, Notes: slices.Clone(p.Warn), taxed: p.Tax.IsPositive(), lacks: p.Lacks()}
		if p.Priced() {
			line.Total = p.Money(p.Total)
		}
		if len(p.Waits) > 0 {
			var waits []string
			for _, f := range p.Waits {
				waits = append(waits, tree.InSentence(f.Title))
			}
			line.Notes = append(line.Notes, "could still cost, so buy nothing for these yet: "+named(waits))
		}
		out = append(out, line)
	}
	for _, f := range o.NoRepair {
		out = append(out, Offer{Title: "No repair on file clears: " + f.Title})
	}
	for _, l := range o.Leave {
		out = append(out, leaving(l))
	}
	return out
}

func leaving(l repair.Leave) Offer {
	line := Offer{Title: l.Title, Minutes: l.Minutes, Notes: slices.Clone(l.Disclose)}
	switch {
	case l.Refused != "":
		line.Notes = append([]string{"Not allowed. " + l.Refused + "."}, line.Notes...)
	case l.Kind == repair.ChooseReturn && l.Costs.IsPositive():
		line.Notes = append([]string{"Fee " + l.Money(l.Costs) + withTax(l.Tax) + "."}, line.Notes...)
	case l.Known && l.Kind != repair.ChooseReturn:
		line.Notes = append([]string{"Leaves about " + l.Money(l.Net()) + "."}, line.Notes...)
	}
	for _, n := range l.Never {
		line.Notes = append(line.Notes, fmt.Sprintf("Never used again: %s (%s).", tree.InSentence(n.Part.Title), tree.InSentence(strings.TrimRight(n.Why, "."))))
	}
	return line
}

// cautions gathers the hazards: those that the readings show now, and those
// that they showed before, that go with a finding, or with the repairs.
func (s *story) cautions(d *Document) {
	var apply []string
	showed := s.dangers(s.now.Results, nil)
	sure := s.dangers(s.now.Results, walk.Result.InDispute)
	for _, c := range s.chapters {
		apply = append(apply, s.dangers(c.results, nil)...)
	}
	for _, f := range s.before.Verdict.Found {
		apply = append(apply, f.Fault.Danger)
	}
	for _, p := range s.paths {
		if p.chosen != s.facts.Chosen && !p.begun() {
			continue
		}
		for _, id := range p.chosen.Repairs {
			if r := s.lib.Repairs[id]; r != nil {
				apply = append(apply, r.Cautions...)
			}
		}
	}
	d.Dangers = s.hazards(sure, nil)
	for _, c := range s.hazards(showed, sure) {
		c.Title, c.unsure = c.Title+" (not sure yet: its readings are in dispute)", true
		d.Dangers = append(d.Dangers, c)
	}
	d.Cautions = s.hazards(apply, showed)
}

// dangers are the cautions of every band and choice that a result lies in, or
// may; but for results that are left out.
func (s *story) dangers(results map[string]walk.Result, without func(walk.Result) bool) []string {
	var out []string
	for _, test := range s.system.Tests {
		r := results[test.ID]
		if without != nil && without(r) {
			continue
		}
		for i, b := range test.Bands {
			if r.Raises(i) {
				out = append(out, b.Danger)
			}
		}
		for _, c := range test.Choices {
			if r.Mark == walk.Seen && r.Choice == c.Name {
				out = append(out, c.Danger)
			}
		}
	}
	return out
}

// hazards turns ids into cautions, each once, without those already shown.
func (s *story) hazards(ids, already []string) []Caution {
	var out []Caution
	var had []*tree.Caution
	for _, id := range ids {
		c := s.lib.Cautions[id]
		if c == nil || slices.Contains(had, c) || slices.Contains(already, id) {
			continue
		}
		had = append(had, c)
		out = append(out, Caution{Title: c.Title, Tell: c.Tell})
	}
	return out
}
