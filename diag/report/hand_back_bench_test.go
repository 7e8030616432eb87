package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// More of the invented lamp: services, a part that wears, what is left over, and a
// conversion with a rule.
const lampMore = `
---
services:
  - {service: hinge, title: A drop of oil on the hinge, tell: One drop., minutes: 1}
  - {service: polish, title: Glass polished, tell: With a soft cloth., minutes: 2}
---
repairs:
  - {repair: candle, kind: conversion, title: Turn it into a candle holder, systems: [lamp], clears: [cell.dead], parts: [{part: candle, qty: 2}],
     minutes: 20, steps: [Fit it.], off: [Cell and switch], kept: [The glass], scrap: ["Cell: collection point"],
     fasteners: [The lid's screw, {what: Felt ring, new: yes}], checks: [glow], before: [The owner agrees in writing],
     law: [{cite: A rule, says: One must hold., ways: [It stands by itself, It hangs]}]}
---
parts:
  - {part: candle, title: Candle, life: {seasons: 1, judgement: It burns down.}}
`

// fullLamp is the lamp with all of that.
func fullLamp(t testing.TB) *tree.Library {
	t.Helper()
	var files []source.File
	text := strings.Replace(lampTrees, "hand back: [guard]\n", "hand back: [guard]\nservice: [hinge, polish]\n", 1)
	for i, text := range splitDocuments(text + strings.TrimPrefix(lampMore, "\n")) {
		files = append(files, source.File{Name: string(rune('a'+i)) + ".yaml", Text: text})
	}
	lib, issues := tree.Load(files)
	for _, i := range issues {
		t.Log(i.Render(nil))
	}
	require.Empty(t, issues)
	return lib
}

// foundDead is a dark lamp whose cell reads 0.31 V and whose ends are clean.
func foundDead(t testing.TB, lib *tree.Library) []job.Event {
	return []job.Event{intake(lib), volts(t, "cell_lit", "0.310"), seen("ends", "clean")}
}

// newCell is the path with a new cell: 2.00 + 4.00 of work + 0.15 of tax = 6.15.
func newCell() job.Event {
	return job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{
		Path: "repair", Repairs: []string{"new-cell"}, Grades: []string{"cell=original"},
		Quote: job.Quote{Currency: "USD", Parts: "2.00", Labour: "4.00", Other: "0.00", Tax: "0.15", Total: "6.15", Minutes: 5},
		Lines: []job.QuoteLine{{Part: "cell", Grade: "original", Qty: 1, Each: "2.00", Note: "shelf 4", InHand: true}},
		Shop:  map[string]string{"labour rate": "48.00", "original warranty days": "90", "diagnostic fee": "3.00"}, Aim: "total",
	}}
}

// candles is the conversion: 2 x 1.00 + 16.00 of work = 18.00.
func candles() job.Event {
	return job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{
		Path: "repair", Repairs: []string{"candle"},
		Quote: job.Quote{Currency: "USD", Parts: "2.00", Labour: "16.00", Tax: "0.00", Total: "18.00", Minutes: 20},
		Lines: []job.QuoteLine{{Part: "candle", Grade: "bin", Qty: 2, Each: "1.00", Piece: "3-9", InHand: true}},
	}}
}

func said(approved bool, ceiling string) job.Event {
	return job.Event{Kind: job.KindAsked, Asked: &job.Asked{
		Approved: approved, Who: "A. Nyone", How: "by telephone", Total: "6.15", Ceiling: ceiling, Currency: "USD", Declined: []string{"new-bulb"},
	}}
}

func ticked(repair string, stales ...string) job.Event {
	return job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: repair, Stales: stales}}
}

func closed(outcome job.Outcome) job.Event {
	return job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: outcome, Verdict: "As it was said then."}}
}

// handedBack is a whole job with all that a log can hold: the estimate approved, the
// cell changed and proved, one service done and one left out, a piece each way.
func handedBack(t testing.TB, lib *tree.Library) []job.Event {
	t.Helper()
	return log(append(foundDead(t, lib),
		newCell(), said(true, "10.00"),
		job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: "3-9", Part: "bulb"}},
		job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: "new-cell", Line: "Fit it."}},
		ticked("new-cell", "cell_lit", "ends"),
		job.Event{Kind: job.KindBinned, Binned: &job.Binned{
			Part: "switch", Words: "with its wire", Shown: []string{"0.2 ohm closed"}, Asking: "1.50", Currency: "USD", Place: "drawer 2",
		}},
		job.Event{Kind: job.KindServed, Served: &job.Served{Service: "hinge"}},
		job.Event{Kind: job.KindServed, Served: &job.Served{Service: "polish", Left: true}},
		volts(t, "cell_lit", "1.480"), volts(t, "bulb_lit", "1.450"), seen("glow", "glows"), seen("guard", "whole"),
		closed(job.Proved),
	)...)
}

// atOnce reads a text as one line.
func atOnce(s string) string { return strings.Join(strings.Fields(s), " ") }

func passed(test string) job.Event {
	return job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test, Why: "skipped"}}
}
