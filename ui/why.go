package ui

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// whyLines explain what is asked now: a test by what the trees say of it, any other
// page by what it is for, and then the words of the trade that stand there.
func (s *Session) whyLines() []string {
	p := s.Prompt()
	var out []string
	add := func(head, text string) {
		if text != "" {
			out = append(out, head+text)
		}
	}
	add("Why: ", p.Why)
	about := aboutStages[p.Stage]
	if s.canPass() {
		about.Do += about.Pass
	}
	out = append(out, about.lines()...)
	add("The usual mistake: ", p.Mistake)
	add("Alone: ", p.Alone)
	out = append(out, s.whyHere(p)...)
	for _, it := range p.List {
		if it.Tell != "" {
			out = append(out, it.Line())
		}
	}
	if Asked(p.Stage) {
		out = append(out, s.bandLines(s.Position().Test)...)
	}
	return append(out, s.termLines(p, out)...)
}

// whyHere is what data says of a page that is no test: whose need the make-safe card is,
// what raised a danger, what a repair clears and is proved by.
func (s *Session) whyHere(p Prompt) []string {
	pos := s.Position()
	var out []string
	switch {
	case pos.System == nil || Asked(p.Stage):
	case p.Stage == walk.AtDanger:
		for _, d := range pos.Danger {
			if r := pos.Results[d.Test]; r.Test != nil {
				out = append(out, "It comes of this: "+Judged(r))
			}
			out = append(out, "Of \""+d.Caution.Title+"\": "+basisWords(d.Caution.Basis, d.Caution.Source)+".")
		}
	case p.Stage == walk.AtSafe:
		out = s.whySafe(pos)
	case p.Stage == walk.AtTerms && pos.Term != nil && pos.Repair != nil:
		out = append(out, "It is asked for this: "+trimStop(pos.Repair.Title)+".")
	case p.Stage == walk.AtRepair && pos.Repair != nil:
		out = s.whyRepair(pos)
	case p.Stage == walk.AtVerdict:
		v := pos.Verdict
		out = append(out, fmt.Sprintf("Just now: %d found, %d cleared, %d can't be tested until a repair is done, %d not tested. The pages \"found\" and \"left\" name them.",
			len(v.Found), len(v.Cleared), len(v.Masked), len(v.Untested)))
	case p.Stage == walk.AtClose:
		if err := s.proof(); err != nil && len(s.facts.Repaired) > 0 {
			out = append(out, "Not offered, \"repaired and proved\": "+trimStop(err.Error())+".")
		}
	}
	return out
}

// whySafe says what a make-safe card is for, and what is dangerous there in full: the
// card has the first sentence alone.
func (s *Session) whySafe(pos walk.Position) []string {
	var out []string
	if t := pos.Test; t != nil {
		if machine := machineWords(pos.System, t); machine != "" {
			out = append(out, "The machine in the next step: "+machine+".")
		}
		if t.Why != "" {
			out = append(out, "And why that step: "+t.Why)
		}
	}
	for _, ask := range pos.Safe {
		if ask.Was != "" && ask.Was != ask.Setting.ID {
			out = append(out, ask.Item.Title+": it was confirmed otherwise before.")
		}
	}
	for _, c := range s.cautionsOf(cautionIDs(pos)) {
		out = append(out, "Caution: "+c.Title+". "+c.Tell)
	}
	return out
}

// whyRepair says what a repair clears, by what it is proved, and the tools.
func (s *Session) whyRepair(pos walk.Position) []string {
	var out, checks []string
	for _, f := range pos.Verdict.Found {
		if slices.Contains(pos.Repair.Clears, f.Fault.ID) {
			out = append(out, "It clears: "+f.Fault.Title+". "+f.Fault.Says)
		}
	}
	for _, id := range pos.Repair.Checks {
		if t := pos.System.Test(id); t != nil && pos.Results[id].Mark != walk.Unknown {
			checks = append(checks, t.Title)
		}
	}
	if len(checks) > 0 {
		out = append(out, "Taken again after it: "+strings.TrimRight(strings.Join(checks, "; "), "?")+".")
	}
	if len(pos.Repair.Tools) > 0 && pos.Repair.Tools[0] != "none" {
		out = append(out, "Tools: "+strings.Join(pos.Repair.Tools, ", ")+".")
	}
	return out
}

// bandLines are the limits of a test with where each is from.
func (s *Session) bandLines(t *tree.Test) []string {
	if t == nil {
		return nil
	}
	var out []string
	values, _ := walk.Values(s.pos.System, *s.facts.Intake)
	low := ""
	for _, b := range t.Bands {
		line := b.Name
		cut, err := b.Cut(values)
		last := b.Below == nil
		switch {
		case err != nil:
			line += ": its limit is not known here"
		case last && low == "":
		case last:
			line += ": " + low + " and up"
		default:
			line += ": below " + Amount(t, cut) + " (" + basisWords(b.Basis, b.Source) + ")"
			low = Amount(t, cut)
		}
		if b.Says != "" {
			line += ". " + b.Says
		}
		out = append(out, "  "+line)
	}
	return out
}

// basisWords says where a limit comes from.
func basisWords(basis, source string) string {
	switch {
	case source != "":
		return source
	case basis == "practice":
		return "common practice, no source"
	case basis == "memory":
		return "from memory, not seen in a source"
	}
	return basis
}

// termLines are the words of the trade that stand in a step, or in what was just said
// of it, with what they mean.
func (s *Session) termLines(p Prompt, said []string) []string {
	text := append([]string{p.Title, p.Red, p.Black, p.Meter, p.Machine, p.Healthy}, p.Tell...)
	text = append(append(append(text, p.Caution...), p.Choices...), said...)
	for _, it := range p.List {
		text = append(text, it.Text)
	}
	terms := s.bench.Library.TermsIn(strings.Join(text, "\n"))
	if len(terms) == 0 {
		return nil
	}
	out := []string{"Words that stand here:"}
	for _, t := range terms {
		out = append(out, "  "+TermLine(t))
	}
	return out
}

// TermLine is a word of the trade with what it means.
func TermLine(t tree.Term) string { return capitalised(t.Word) + ": " + t.Means }

// capitalised is a text with its first letter large.
func capitalised(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
