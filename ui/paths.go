package ui

import (
	"context"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

// offer works out the repair paths for what has been found. Without findings
// it lists only the ways to end without a repair.
func (s *Session) offer() repair.Offers {
	if s.pos.System == nil {
		return repair.Offers{}
	}
	worth, err := decimal.NewFromString(s.facts.Intake.Worth)
	if err != nil {
		worth = decimal.Zero
	}
	offers, err := repair.Paths(s.bench.Library, s.pos.System, s.pos.Verdict, s.bench.Prices, worth, repair.Choices{})
	if err != nil {
		return repair.Offers{}
	}
	return offers
}

// PathLines are the numbered ways to go on: repair paths first, best first,
// then the ways to end without a repair.
func (s *Session) PathLines() []string {
	var out []string
	n := 0
	for _, p := range s.paths.Paths {
		n++
		out = append(out, pathLine(n, p))
		out = append(out, pathNotes(p)...)
	}
	for _, f := range s.paths.NoRepair {
		out = append(out, "No repair on file clears: "+f.Title+".")
	}
	for _, l := range s.paths.Leave {
		n++
		out = append(out, leaveLine(n, l))
	}
	for _, f := range s.paths.Folded {
		out = append(out, fmt.Sprintf("Left out: %s, %s: %s.", f.Path.Title(), f.Path.Money(f.Path.Total), strings.TrimSuffix(f.Because, ".")))
	}
	return out
}

func pathLine(n int, p repair.Path) string {
	line := fmt.Sprintf("%d  %s: %s", n, p.Title(), p.Money(p.Total))
	if !p.Priced() {
		line = fmt.Sprintf("%d  %s: not priced", n, p.Title())
	}
	line += ", " + Minutes(float64(p.Minutes))
	if p.LeadDays > 0 {
		line += fmt.Sprintf(", parts in %d days", p.LeadDays)
	}
	if p.Worth.IsPositive() && p.Priced() {
		line += fmt.Sprintf(", %s %% of its worth", p.Share.StringFixed(0))
	}
	return line
}

func pathNotes(p repair.Path) []string {
	var out []string
	for _, w := range p.Warn {
		out = append(out, "   "+w)
	}
	for _, b := range p.Before {
		out = append(out, "   Only if: "+b)
	}
	for _, law := range p.Law {
		out = append(out, "   "+law.Cite+": "+law.Says)
		for _, way := range law.Ways {
			out = append(out, "     one of: "+way)
		}
	}
	return out
}

func leaveLine(n int, l repair.Leave) string {
	line := fmt.Sprintf("%d  %s", n, l.Title)
	switch {
	case l.Refused != "":
		return line + ": not allowed. " + l.Refused
	case l.Kind == repair.ChooseReturn && l.Costs.IsPositive():
		return line + ": fee " + l.Money(l.Costs)
	case l.Known && l.Kind != repair.ChooseReturn:
		return line + ": about " + l.Money(l.Net()) + " left"
	}
	return line
}

// choose takes one of the numbered ways.
func (s *Session) choose(ctx context.Context, a Action) (Reply, error) {
	paths, leave := s.paths.Paths, s.paths.Leave
	if !s.pos.Verdict.Finished && len(s.pos.Verdict.Found) == 0 {
		return Reply{}, fmt.Errorf("nothing is found yet; the walk goes on")
	}
	if s.facts.Chosen != nil && len(s.facts.Ticked) < len(s.facts.Chosen.Repairs) {
		return Reply{}, fmt.Errorf("a path is chosen already; \"undo\" takes the choice back")
	}
	var chosen job.Chosen
	var title string
	switch {
	case a.Pick == 0:
		return Reply{Show: Paths}, nil
	case a.Pick <= len(paths):
		chosen, title = paths[a.Pick-1].Chosen(), paths[a.Pick-1].Title()
	case a.Pick <= len(paths)+len(leave):
		l := leave[a.Pick-len(paths)-1]
		if l.Refused != "" {
			return Reply{}, fmt.Errorf("that is not allowed: %s", l.Refused)
		}
		chosen, title = l.Chosen(), l.Title
	default:
		return Reply{}, fmt.Errorf("there are %d ways to choose from; \"paths\" lists them", len(paths)+len(leave))
	}
	s.asked = ""
	return Reply{Said: []string{"Chosen: " + title + "."}}, s.record(ctx, job.Event{Kind: job.KindChosen, Chosen: &chosen})
}
