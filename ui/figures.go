package ui

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

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
	money := func(d decimal.Decimal) string { return p.Money(d) }
	out := []string{fmt.Sprintf("over %d seasons %s", p.Seasons, money(p.OverSeasons))}
	if p.Comeback.Known {
		out = append(out, "a comeback is expected to cost "+money(p.Comeback.Total))
	}
	if p.Risk.Stake.IsPositive() {
		out = append(out, money(p.Risk.Stake)+" can't go back")
	}
	if p.Worth.IsPositive() {
		out = append(out, "worth "+money(p.After)+" then", "bought as it is it leaves "+money(p.Margin))
	}
	return "   " + strings.Join(out, "; ")
}

// beyond is what else has to be known of a way.
func beyond(p repair.Path) []string {
	var out []string
	if line := figures(p); line != "" {
		out = append(out, line)
	}
	if p.Holds {
		out = append(out, "   It holds whichever likely suspect is true.")
	}
	if len(p.Saved) > 0 {
		var parts []string
		for _, s := range p.Saved {
			parts = append(parts, s.Part.Title)
		}
		out = append(out, "   Good, and comes off for the bin: "+strings.Join(parts, ", "))
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
