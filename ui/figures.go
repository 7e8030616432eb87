package ui

import (
	"fmt"
	"strings"

	"benchlead/diag/repair"
	"benchlead/diag/suspect"
)

// counted is what the offers were last worked out with.
type counted struct {
	last  int64
	cloud *suspect.Cloud
	aim   repair.Aim
}

// countIn works the offers out again with the suspects, once they are ready: what a
// comeback is expected to cost, and which test is worth its minutes first. Only who
// looks at the ways waits for it.
func (s *Session) countIn() {
	c := s.Counsel()
	now := counted{s.facts.Last, s.weighed.cloud, s.aim}
	if len(c.All) == 0 || s.counted == now {
		return
	}
	s.paths, s.counted = s.offerTo(Likely(c), Open(c)), now
}

// figures are what a way costs and brings beyond the bill, on one line.
func figures(p repair.Path) string {
	if !p.Priced() {
		return ""
	}
	out := []string{fmt.Sprintf("%d seasons %s", p.Seasons, p.Amount(p.OverSeasons))}
	if p.Comeback.Known {
		out = append(out, "comeback "+p.Amount(p.Comeback.Total))
	}
	if p.Risk.Stake.IsPositive() {
		out = append(out, "no return "+p.Amount(p.Risk.Stake))
	}
	if p.Worth.IsPositive() {
		out = append(out, "worth then "+p.Amount(p.After), "margin "+p.Amount(p.Margin))
	}
	return "   " + strings.Join(out, ", ")
}

// figureWords say what the figures are.
const figureWords = "Comeback: what doing it again is expected to cost you. No return: money in parts that can't go back. Margin: left of a machine that was bought as it is and is sold."

// beyond is what else has to be known of a way.
func beyond(p repair.Path) []string {
	var out []string
	if line := figures(p); line != "" {
		out = append(out, line)
	}
	if p.Holds {
		out = append(out, "   It holds whichever likely suspect is true.")
	}
	if parts := savedTitles(p); len(parts) > 0 {
		out = append(out, "   Good, and comes off for the bin: "+strings.Join(parts, ", "))
	}
	return out
}

// savedTitles are the parts that come off and are good.
func savedTitles(p repair.Path) []string {
	var out []string
	for _, s := range p.Saved {
		out = append(out, s.Part.Title)
	}
	return out
}

// decidingLines name the tests that are worth their minutes before money is spent.
func (s *Session) decidingLines() []string {
	var out []string
	for i, d := range s.paths.Deciding {
		if i == mostDeciding {
			break
		}
		out = append(out, "Before money is spent: "+d.Title+" (take "+d.Test+"). "+trimStop(d.Says)+".")
	}
	return out
}

// mostDeciding is how many such tests are named.
const mostDeciding = 2
