package ui

import (
	"fmt"
	"strings"

	"benchlead/diag/repair"
)

// ViewAloud is a view for whoever hears it. more asks for what it leaves out.
func (s *Session) ViewAloud(view Verb, more bool) []string {
	switch {
	case s.pos.System == nil:
	case view == Paths && more:
		return s.MoreAloud()
	case view == Paths:
		return s.WaysAloud()
	case view == Left:
		return s.leftAloud()
	case view == Machine:
		return s.machineAloud()
	}
	return s.View(view)
}

// machineAloud is what was said of the machine, each with its number as it is typed.
func (s *Session) machineAloud() []string {
	out := s.machineLines()
	_, items := s.again()
	for i, l := range out {
		head := fmt.Sprintf("%d %s: ", i+1, items[i].Title)
		out[i] = fmt.Sprintf("%d. %s: %s", i+1, items[i].Aloud(), strings.TrimPrefix(l, head))
	}
	return append(out, s.machineHint(string(Machine)+", its number and what is right, as "+string(Machine)+" 2 and the words")...)
}

// leftAloud is what is not tested yet. Of the tests that are open only how many there are
// is said: who wants one has a word for it.
func (s *Session) leftAloud() []string {
	out := s.openFaults()
	if n := len(s.openTests()); n > 0 {
		out = append(out, fmt.Sprintf(`%s open yet. "take" and a word or two of one takes it, as "take battery"; where several fit they are named.`, tests(n)))
	}
	return out
}

func tests(n int) string {
	if n == 1 {
		return "One test is"
	}
	return fmt.Sprintf("%d tests are", n)
}

// WaysAloud are the ways to go on for whoever hears them: first each way, a sentence or
// two with its number in front; then what has to be known before one is chosen. MoreAloud
// has the rest, for whoever asks for it: the whole list is too long to be kept in mind.
func (s *Session) WaysAloud() []string {
	s.countIn()
	var out, notes []string
	told := map[string]bool{}
	for i, w := range s.paths.Ways() {
		if w.Leave != nil {
			out = append(out, leaveAloud(i+1, *w.Leave))
			continue
		}
		p := *w.Path
		out = append(out, pathAloud(i+1, p, s.facts.Intake.Worth == ""))
		for _, l := range append(pieceLines(p), pathNotes(p, told[repairs(p)])...) {
			notes = append(notes, fmt.Sprintf("Way %d: %s", i+1, aSentence(strings.TrimSpace(l))))
		}
		told[repairs(p)] = true
	}
	if s.bench.PriceNote != "" && len(s.paths.Paths) > 0 {
		notes = append(notes, s.bench.PriceNote)
	}
	out = append(append(out, notes...), s.troubleLines()...)
	out = append(append(out, s.decidingLines()...), s.unmendable()...)
	if len(s.paths.Paths) > 0 {
		out = append(out, `"paths more" says what the ways come to over the seasons, what was left out and why, and how they are ranked.`)
	}
	return out
}

// MoreAloud is what WaysAloud leaves out.
func (s *Session) MoreAloud() []string {
	s.countIn()
	out := s.aimLines()
	for i, w := range s.paths.Ways() {
		if w.Path != nil {
			if says := beyondAloud(*w.Path); says != "" {
				out = append(out, fmt.Sprintf("Way %d, %s: %s", i+1, wayTitle(*w.Path), says))
			}
		}
	}
	out = append(out, s.foldedLines()...)
	if len(out) == 0 {
		return []string{"There is nothing more to say of the ways."}
	}
	return out
}

// pathAloud is one path with what it costs and takes. assumed: nobody said what the
// machine is worth.
func pathAloud(n int, p repair.Path, assumed bool) string {
	line := fmt.Sprintf("%d. %s: it has no price on file", n, wayTitle(p))
	if p.Priced() {
		line = fmt.Sprintf("%d. %s: it costs %s", n, wayTitle(p), p.Money(p.Total))
	}
	if p.Minutes > 0 {
		line += ", and the work takes " + Minutes(float64(p.Minutes))
	}
	switch {
	case p.LeadDays == 1:
		line += "; the parts come in a day"
	case p.LeadDays > 1:
		line += fmt.Sprintf("; the parts come in %d days", p.LeadDays)
	}
	if p.Worth.IsPositive() && p.Priced() {
		line += fmt.Sprintf(". That is %s %% of what the machine is worth", p.Share.StringFixed(0))
		if assumed {
			line += ", which is assumed"
		}
	}
	return line + "."
}

// wayTitle is a path's title without brackets.
func wayTitle(p repair.Path) string {
	return strings.NewReplacer(" (", ", ", ")", "", " + ", " and ").Replace(p.Title())
}

func leaveAloud(n int, l repair.Leave) string {
	line := fmt.Sprintf("%d. %s: ", n, l.Title)
	switch {
	case l.Refused != "":
		return line + "that is not allowed. " + aSentence(l.Refused)
	case l.Kind == repair.ChooseReturn && l.Costs.IsPositive():
		return line + "the fee is " + l.Money(l.Costs) + "."
	case l.Known && l.Kind != repair.ChooseReturn && l.Net().IsNegative():
		return line + "it costs about " + l.Money(l.Net().Neg()) + " more than it brings."
	case l.Known && l.Kind != repair.ChooseReturn:
		return line + "it leaves about " + l.Money(l.Net()) + "."
	}
	return aSentence(strings.TrimSuffix(line, ": "))
}

// beyondAloud is what a way costs and brings beyond the bill, in sentences.
func beyondAloud(p repair.Path) string {
	var out []string
	if p.Priced() {
		out = append(out, fmt.Sprintf("over %d seasons it comes to %s", p.Seasons, p.Money(p.OverSeasons)))
		if p.Comeback.Known {
			out = append(out, "having to do it again is expected to cost you "+p.Money(p.Comeback.Total))
		}
		if p.Risk.Stake.IsPositive() {
			out = append(out, "parts for "+p.Money(p.Risk.Stake)+" can't go back")
		}
		if p.Worth.IsPositive() {
			out = append(out, "the machine is then worth "+p.Money(p.After))
			out = append(out, "bought as it is and sold, it leaves a margin of "+p.Money(p.Margin))
		}
	}
	if p.Holds {
		out = append(out, "it holds whichever likely suspect is true")
	}
	if parts := savedTitles(p); len(parts) > 0 {
		out = append(out, "good, and comes off for the bin: "+strings.Join(parts, ", "))
	}
	if len(out) == 0 {
		return ""
	}
	return strings.Join(out, "; ") + "."
}

// aSentence ends a text with a full stop.
func aSentence(text string) string { return trimStop(text) + "." }
