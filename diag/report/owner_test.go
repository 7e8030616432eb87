package report

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

func TestTheOwnersReportSaysItAll(t *testing.T) {
	lib := fullLamp(t)
	text := atOnce(written(t, OwnerText, build(t, lib, handedBack(t, lib))))
	for _, want := range []string{
		"green lamp Report of job 14 Owner: A. Nyone Brought in: 1 January 1970 Finished: 1 January 1970 What it did: It stays dark",
		"You told us: “It went dark.” It is repaired.",
		"WHAT WAS WRONG, AND HOW WE KNOW - The cell is dead. It gives no current.",
		// 0.8 x 1.5 = 1.2, 1.1 x 1.5 = 1.65
		"How we know: Cell while lit: we measured 0.31 volts, where 1.2 to 1.65 volts is right.",
		"WHAT WAS DONE [x] Fit a cell. [x] A drop of oil on the hinge. - Part fitted: Cell (new, as the machine's maker supplies it). " +
			"- Taken off and kept by the shop: switch.",
		"BEFORE AND AFTER - Cell while lit. Before: 0.31 volts, too low. After: 1.48 volts, right. Right is 1.2 to 1.65 volts.",
		"SAFETY [x] Glass over the bulb: passed (whole).",
		"WHAT TO WATCH FOR - Usual before hand-back, and not done: glass polished. - If it does the same again (it stays dark)",
		"COST Approved up to 10.00 USD by A. Nyone, by telephone on 1 January 1970 (the estimate was 6.15 USD). " +
			"Offered and not wanted: Fit a bulb. 1 x cell (new, as the machine's maker supplies it): 2.00 USD each " +
			"Parts: 2.00 USD Work, 5 minutes: 4.00 USD Tax: 0.15 USD = Total: 6.15 USD",
		"WARRANTY ON THE PARTS THAT WERE FITTED From the day it is handed back.",
		"Cell (new, as the machine's maker supplies it): 90 days",
		"licensed electrician",
	} {
		require.Contains(t, text, want)
	}
	for _, not := range []string{"±", "===", "...", " B is before", "band", "called", "cell_lit", "cell.dead", "new-cell", "NOT TO BE USED", "Other"} {
		require.NotContains(t, text, not)
	}
}

// Every sentence of the one stands in the other.
func TestThePageSaysWhatTheTextSays(t *testing.T) {
	lib := fullLamp(t)
	for _, events := range [][]job.Event{handedBack(t, lib), log(foundDead(t, lib)...), unsafeLamp(t)} {
		d := build(t, lib, events)
		page := atOnce(html.UnescapeString(written(t, Owner, d)))
		text := atOnce(written(t, OwnerText, d))
		n := 0
		for _, s := range sections(d) {
			all := append([]string{}, s.Says...)
			for _, i := range s.Items {
				all = append(append(all, i.Text), i.More...)
			}
			for _, r := range s.Rows {
				all = append(all, r.Name, r.Figure)
			}
			for _, one := range all {
				require.Contains(t, page, atOnce(one))
				require.Contains(t, text, atOnce(one))
				n++
			}
		}
		require.Greater(t, n, 10)
	}
}

func TestTheOwnersPageIsQuietAndDrawn(t *testing.T) {
	lib := fullLamp(t)
	page := written(t, Owner, build(t, lib, handedBack(t, lib)))
	require.True(t, strings.HasPrefix(page, "<!DOCTYPE html>"))
	require.True(t, strings.HasSuffix(strings.TrimSpace(page), "</html>"))
	quiet(t, page)
	// One check reading is drawn, with both marks on one line; the finding that it
	// proves is not drawn again.
	require.Equal(t, 1, strings.Count(page, "<svg"))
	require.Equal(t, 2, strings.Count(page, "<polygon"))
	for _, want := range []string{">before<", ">after<", ">right<", ">too low<", ">too high<", `role="img"`, "@media print", "@page"} {
		require.Contains(t, page, want)
	}
	require.NotRegexp(t, `@page[^}]*size`, page, "no paper is named")
}

// quiet says that a page runs nothing, loads nothing, and closes what it opens.
func quiet(t *testing.T, page string) {
	t.Helper()
	for _, not := range []string{"<script", "http:", "https:", "<link", "<img", "url(", "@import", "src=", "href=", "ZgotmplZ", "onload=\"", "NaN", "+Inf"} {
		require.NotContains(t, strings.ToLower(page), strings.ToLower(not))
	}
	for _, name := range []string{"html", "table", "svg", "ul", "li", "div", "p", "h1", "h2", "td", "tr", "text", "rect", "section", "span", "polygon"} {
		opened := regexp.MustCompile(`<`+name+`[ >]`).FindAllString(page, -1)
		require.Len(t, opened, strings.Count(page, "</"+name+">"), name)
	}
}

// A finding that nothing was done about yet is drawn where it is told.
func TestAFindingIsDrawnWithWhatIsRight(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(append(foundDead(t, lib), passed("bulb_lit"))...))
	text := atOnce(written(t, OwnerText, d))
	require.Contains(t, text, "WHAT IS WRONG, AND HOW WE KNOW - The cell is dead.")
	require.Contains(t, text, "We are not finished with it. Where it stands: waiting for approval.")
	require.Contains(t, text, "Nothing is agreed yet. The cheapest way to repair it comes to 6.15 USD")
	require.Contains(t, text, "We did not test for these faults, or the tests did not decide. Any of them may still be there. - The bulb is open - The switch is open")
}

func TestAnUnsafeStandIsToldInItsOwnLetters(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(append(foundDead(t, lib), newCell(), ticked("new-cell", "cell_lit"), volts(t, "cell_lit", "1.480"), seen("guard", "gone"))...))
	require.Contains(t, atOnce(written(t, OwnerText, d)), "Where it stands: UNSAFE - NOT TO BE USED.")
}

// A fault that two repairs clear is repaired when one of them is done.
func TestOneRepairOfTwoIsEnough(t *testing.T) {
	one, other := RepairLine{clears: []string{"cell.dead"}, Done: true}, RepairLine{clears: []string{"cell.dead"}}
	for _, lines := range [][]RepairLine{{one, other}, {other, one}} {
		d := Document{Outcome: string(job.Proved), Untested: []FaultLine{{Fault: "cell.dead", Title: "The cell is dead"}}, Work: &Work{Repairs: lines}}
		require.Empty(t, notTested(d).Items)
	}
	d := Document{Outcome: string(job.Proved), Untested: []FaultLine{{Fault: "cell.dead", Title: "The cell is dead"}}, Work: &Work{Repairs: []RepairLine{other}}}
	require.Len(t, notTested(d).Items, 1)
}

// What was ruled out before the repair is not told to the owner as not tested, though
// its readings count no longer.
func TestRuledOutBeforeTheRepairIsNotToldAsUntested(t *testing.T) {
	lib := fullLamp(t)
	events := append(foundDead(t, lib), volts(t, "bulb_lit", "1.400"), newCell(), ticked("new-cell", "cell_lit", "bulb_lit"))
	d := build(t, lib, log(events...))
	var open []string
	for _, f := range d.Untested {
		open = append(open, f.Fault)
	}
	require.Contains(t, open, "switch.open", "the bench copy says so")
	require.Contains(t, atOnce(written(t, Text, d)), "The switch is open: tested before the repair, not since")
	require.NotContains(t, atOnce(written(t, OwnerText, d)), "The switch is open")
	other := *lib
	other.Digest = "changed"
	changed, err := Build(&other, 14, log(events...), repair.Offers{})
	require.NoError(t, err)
	require.Contains(t, atOnce(written(t, OwnerText, changed)), "The switch is open")
}

func TestADoubtIsToldToTheOwner(t *testing.T) {
	d := weighedLamp(t)
	text := atOnce(written(t, OwnerText, d))
	require.Contains(t, text, "We are not sure of this. In doubt, unlikely: the other readings speak against it. Take again: Cell while lit.")
	require.Contains(t, text, "Nothing is agreed yet, and there is no price yet.")
	require.Contains(t, Message(d), "Not sure yet: the cell is dead.")
	require.NotContains(t, Message(d), "Found:")
}

// The conversion and how each rule is met stand on the sheet; whoever gets the
// machine later is told.
func TestAConversionIsToldWithItsRules(t *testing.T) {
	lib := fullLamp(t)
	events := log(append(foundDead(t, lib), candles(),
		job.Event{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: "candle", Term: "Before it is begun"}},
		job.Event{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: "candle", Term: "A rule", Way: "It hangs"}},
		ticked("candle", "glow"), seen("glow", "glows"), seen("guard", "whole"), closed(job.Proved),
	)...)
	text := atOnce(written(t, OwnerText, build(t, lib, events)))
	for _, want := range []string{
		"[x] Turn it into a candle holder. Taken off: Cell and switch. Left as it was: The glass. Thrown away: Cell: collection point.",
		"CHANGED FOR GOOD This machine is not as it was built. What was done to it: turn it into a candle holder. Whoever gets it after you has to be told.",
		"[x] Checked before the work was begun. Confirmed: The owner agrees in writing.",
		"[x] A rule: One must hold. Confirmed: It hangs.",
		"Part fitted: 2 pieces of candle (used, tested by us).",
		"- Candle: usually lasts about 1 season of usual use (it burns down). - Candle: a used part. It was tested, and its age is not known.",
	} {
		require.Contains(t, text, want)
	}
	require.NotContains(t, text, "It stands by itself", "only the way that was confirmed")
	require.NotContains(t, text, "WARRANTY", "its settings say nothing of one")
	bench := atOnce(written(t, Text, build(t, lib, events)))
	for _, want := range []string{"scrap: Cell: collection point", "new: Felt ring", "again: The lid's screw", "[ ] It stands by itself", "[x] It hangs"} {
		require.Contains(t, bench, want)
	}
}

func TestARuleThatNobodyConfirmedIsSaidToBeOpen(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(append(foundDead(t, lib), candles())...))
	text := atOnce(written(t, OwnerText, d))
	require.Contains(t, text, "WHAT IS TO BE DONE [ ] Not done yet: turn it into a candle holder.")
	require.Contains(t, text, "[ ] A rule: One must hold. It was NOT confirmed that this is met.")
	require.Contains(t, text, "COST This is our estimate. The work is not done yet.")
}

// What the checklist does not tick is not said to have been thrown away.
func TestOnlyWhatIsTickedIsThrownAway(t *testing.T) {
	lib := fullLamp(t)
	line := job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: "candle", Line: "Kept: The glass"}}
	d := build(t, lib, log(append(foundDead(t, lib), candles(), line, ticked("candle", "glow"))...))
	text := atOnce(written(t, OwnerText, d))
	require.Contains(t, text, "Left as it was: The glass.")
	require.NotContains(t, text, "Thrown away")
}

func TestASaleIsDisclosed(t *testing.T) {
	lib := fullLamp(t)
	sell := job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: repair.ChooseAsIs, Repairs: []string{}, Quote: job.Quote{Currency: "USD", Total: "0.00"}}}
	done := closed(job.SoldAsIs)
	done.Closed.Found, done.Closed.Untested = []string{"cell.dead"}, []string{"switch.open"}
	d := build(t, lib, log(append(foundDead(t, lib), sell, done)...))
	text := atOnce(written(t, OwnerText, d))
	for _, want := range []string{
		"WHAT THE BUYER HAS TO KNOW It is sold as it is, with these faults: [!] Known fault: the cell is dead.",
		"- Tested: Cell while lit: we measured 0.31 volts, where 1.2 to 1.65 volts is right. - Tested: Ends of the cell: bright metal.",
		"recalled", "[ ] Glass over the bulb: NOT TESTED.", "- The switch is open", "No repair was made and none is charged.",
	} {
		require.Contains(t, text, want)
	}
	require.NotContains(t, text, "Total")
	require.Equal(t, StateSold, d.State)
}
