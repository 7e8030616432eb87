package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/walk"
)

// offer works out the repair paths for what has been found. Without findings
// it lists only the ways to end without a repair.
func (s *Session) offer() repair.Offers { return s.offerTo(nil, nil) }

// offerTo is offer with the suspects as they are weighed, and the tests that are open.
func (s *Session) offerTo(suspects []repair.Likely, open []repair.Open) repair.Offers {
	if s.pos.System == nil {
		return repair.Offers{}
	}
	worth, err := decimal.NewFromString(s.facts.Intake.Worth)
	if err != nil {
		worth = decimal.Zero
	}
	choices := repair.Choices{Tried: s.facts.Repaired, Pieces: s.shelves, Aim: s.aim, Own: s.aim == repair.BestMargin, Suspects: suspects, Open: open}
	offers, err := repair.Paths(s.bench.Library, s.pos.System, s.pos.Verdict, s.bench.Prices, worth, choices)
	if err != nil {
		return repair.Offers{}
	}
	offers.Paths = thin(offers.Paths)
	// Why the first is first is said of what is shown.
	if offers, err = offers.By(s.aim); err != nil {
		return repair.Offers{}
	}
	return offers
}

// thin keeps of each set of repairs the cheapest mix of parts, the cheapest without
// a used part, the one all of original parts, and the one that is there soonest: a
// list that is read standing up. The paths come best first.
func thin(paths []repair.Path) []repair.Path {
	soonest := map[string]repair.Path{}
	for _, p := range paths {
		if best, ok := soonest[repairs(p)]; !ok || p.LeadDays < best.LeadDays {
			soonest[repairs(p)] = p
		}
	}
	seen, fresh := map[string]bool{}, map[string]bool{}
	var out []repair.Path
	for _, p := range paths {
		set := repairs(p)
		if !seen[set] || !fresh[set] && !used(p) || p.ID == soonest[set].ID || original(p) {
			out = append(out, p)
		}
		seen[set], fresh[set] = true, fresh[set] || !used(p)
	}
	return out
}

// used says whether a part of the path is a used one.
func used(p repair.Path) bool {
	return slices.ContainsFunc(p.Lines, func(l repair.Line) bool { return l.Grade == repair.Bin })
}

// repairs names the set of repairs of a path.
func repairs(p repair.Path) string {
	var ids []string
	for _, r := range p.Repairs {
		ids = append(ids, r.ID)
	}
	return strings.Join(ids, "+")
}

func original(p repair.Path) bool {
	return !slices.ContainsFunc(p.Lines, func(l repair.Line) bool { return l.Grade != repair.Original })
}

// mostFolded is how many beaten paths are named; the rest are counted.
const mostFolded = 4

// PathLines are the numbered ways to go on: repair paths first, best first,
// then the ways to end without a repair.
func (s *Session) PathLines() []string {
	out := s.wayLines(true)
	if len(s.paths.Paths) > 0 {
		out = append(out, figureWords)
	}
	return out
}

// wayLines are PathLines; without full, what is needed to choose.
func (s *Session) wayLines(full bool) []string {
	s.countIn()
	var out []string
	if s.bench.PriceNote != "" && len(s.paths.Paths) > 0 {
		out = append(out, s.bench.PriceNote)
	}
	out = append(append(out, s.troubleLines()...), s.aimLines()...)
	out = append(append(out, s.decidingLines()...), s.unmendable()...)
	told := map[string]bool{}
	for i, w := range s.paths.Ways() {
		if w.Leave != nil {
			out = append(out, leaveLine(i+1, *w.Leave))
			continue
		}
		p := *w.Path
		out = append(out, pathLine(i+1, p, s.facts.Intake.Worth == ""))
		if full {
			out = append(out, beyond(p)...)
		}
		out = append(out, pieceLines(p)...)
		out = append(out, pathNotes(p, told[repairs(p)])...)
		told[repairs(p)] = true
	}
	return append(out, s.foldedLines()...)
}

// troubleLines say what went wrong so far with ways to repair: one that was done and did
// not help, and a parts bin that can't be read.
func (s *Session) troubleLines() []string {
	var out []string
	if failed := s.failed(); len(failed) > 0 {
		out = append(out, "Tried already, and the fault is still there: "+strings.Join(failed, ", ")+".")
	}
	return append(out, s.binLines()...)
}

// unmendable are the findings that no repair on file is for.
func (s *Session) unmendable() []string {
	var out []string
	for _, f := range s.paths.NoRepair {
		out = append(out, "No repair on file for: "+f.Title+".")
	}
	return out
}

// foldedLines are the ways that another one beats, with why.
func (s *Session) foldedLines() []string {
	var out []string
	for i, f := range s.paths.Folded {
		if i == mostFolded {
			out = append(out, fmt.Sprintf("And %d more, each beaten by another way.", len(s.paths.Folded)-i))
			break
		}
		out = append(out, fmt.Sprintf("Left out: %s, %s: %s.", f.Path.Title(), f.Path.Money(f.Path.Total), strings.TrimSuffix(f.Because, ".")))
	}
	return out
}

// pathLine is one path on a line. assumed: nobody said what the machine is
// worth.
func pathLine(n int, p repair.Path, assumed bool) string {
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
		if assumed {
			line += " (assumed)"
		}
	}
	return line
}

// failed are repairs that were done and whose fault is found all the same.
func (s *Session) failed() []string {
	var out []string
	for _, id := range s.facts.Repaired {
		r := s.bench.Library.Repairs[id]
		if r == nil || !slices.ContainsFunc(s.pos.Verdict.Found, func(f walk.Finding) bool { return slices.Contains(r.Clears, f.Fault.ID) }) {
			continue
		}
		if !slices.Contains(out, r.Title) {
			out = append(out, r.Title)
		}
	}
	return out
}

// tried is the repair that was done last against a fault; empty when none was.
func (s *Session) tried(fault string) string {
	for _, id := range slices.Backward(s.facts.Repaired) {
		if r := s.bench.Library.Repairs[id]; r != nil && slices.Contains(r.Clears, fault) {
			return r.Title
		}
	}
	return ""
}

// pathNotes are what must be known before a path is chosen. What the repairs
// ask for is told once for each set of them.
func pathNotes(p repair.Path, told bool) []string {
	var out []string
	for _, w := range p.Warn {
		out = append(out, "   "+w)
	}
	if told {
		return out
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
	case l.Known && l.Kind != repair.ChooseReturn && l.Net().IsNegative():
		return line + ": costs about " + l.Money(l.Net().Neg()) + " more than it brings"
	case l.Known && l.Kind != repair.ChooseReturn:
		return line + ": about " + l.Money(l.Net()) + " left"
	}
	return line
}

// CanChoose says whether a way to go on may be chosen just now.
func (s *Session) CanChoose() bool {
	return s.ended() == nil && s.mayChoose() == nil && len(s.paths.Ways()) > 0
}

// mayChoose says why no way may be chosen yet; nil when one may.
func (s *Session) mayChoose() error {
	if !s.pos.Verdict.Finished && len(s.pos.Verdict.Found) == 0 {
		return fmt.Errorf("no fault is found yet: take the next reading")
	}
	if walk.Begun(s.facts) && len(s.facts.Ticked) < len(s.facts.Chosen.Repairs) {
		return fmt.Errorf("the chosen repair is begun already; \"undo\" takes it back")
	}
	return nil
}

// choose takes one of the numbered ways.
func (s *Session) choose(ctx context.Context, a Action) (Reply, error) {
	ways := s.paths.Ways()
	if err := s.mayChoose(); err != nil {
		return Reply{}, err
	}
	switch {
	case a.Pick == 0 && a.Text != "":
		return Reply{}, fmt.Errorf("%q is no number of the list; write for example: choose 1", a.Text)
	case a.Pick == 0:
		return Reply{Show: Paths}, nil
	case a.Pick > len(ways):
		return Reply{}, fmt.Errorf("there are %d ways to choose from; \"paths\" lists them", len(ways))
	}
	way := ways[a.Pick-1]
	if l := way.Leave; l != nil && l.Refused != "" {
		return Reply{}, fmt.Errorf("that is not allowed: %s", l.Refused)
	}
	chosen, title := way.Chosen(), way.Title()
	s.asked = ""
	said, err := s.move(ctx, job.Event{Kind: job.KindChosen, Chosen: &chosen})
	if err != nil {
		return Reply{}, err
	}
	return Reply{Said: append([]string{"Chosen: " + title + "."}, said...)}, nil
}
