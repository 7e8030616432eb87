package report

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// An invented lamp with a cell, a switch and a guard. Its values are nobody's.
const lampTrees = `
system: lamp
title: Hand lamp with one cell
about: An invented machine for tests.
machine: lamp
complaints:
  - {complaint: dark, title: It stays dark, trees: [dark]}
history:
  - {choice: stored, title: Stood for a season}
label:
  - {field: volts, ask: Volts on the cell, unit: V, default: "1.5", least: 1, most: 2}
  - {field: kind, ask: Kind of cell, options: [zinc, alkaline], default: zinc}
points:
  - {point: cell.pos, title: Plus of the cell, minutes: 1}
  - {point: cell.neg, title: Minus of the cell, minutes: 1}
  - {point: bulb.pos, title: Tip of the bulb, minutes: 1}
states:
  - {state: "off", title: Switched off, tell: Switch it off.}
  - {state: lit, title: Switch on, tell: Hold the switch., powered: true, needs: {hands: clear}}
setups:
  - {setup: lid-off, title: Lid off, tell: Take the lid off.}
work:
  - {work: clean, title: Clean the ends, tell: Clean both ends., minutes: 2}
tests:
  - test: cell_lit
    title: Cell while lit
    measure: dc volts
    leads: {red: cell.pos, black: cell.neg}
    state: lit
    with: [lid-off]
    tell: Touch the ends themselves.
    why: At rest it says nothing.
    minutes: 1
    healthy: {from: 0.8 * label.volts, to: 1.1 * label.volts, say: At the label}
    bands:
      - {band: dead, below: "0.8", basis: practice, says: It gives nothing., danger: leak}
      - {band: holds, clears: [cell.dead], says: It holds up.}
  - test: bulb_lit
    title: Bulb while lit
    measure: dc volts
    leads: {red: bulb.pos, black: cell.neg}
    state: lit
    minutes: 1
    bands:
      - {band: none, below: "0.4", basis: practice, take: cell_lit}
      - {band: there, clears: [switch.open]}
  - test: lost
    title: Volts lost in the switch
    from: cell_lit - bulb_lit
    in: mV
    bands:
      - {band: little, below: "300", basis: practice}
      - {band: much, says: That is lost in the switch.}
  - test: ends
    title: Ends of the cell
    see: Look at both ends.
    state: "off"
    minutes: 1
    choices:
      - {choice: clean, title: Bright metal}
      - {choice: green, title: Green crust, says: It resists.}
  - test: glow
    title: Does it glow
    see: Look at it.
    state: lit
    minutes: 1
    choices:
      - {choice: glows, clears: [bulb.open]}
      - dark
  - test: guard
    title: Glass over the bulb
    see: Look at the glass.
    state: "off"
    minutes: 1
    choices:
      - {choice: whole, title: Whole}
      - {choice: never, title: None was ever fitted, absent: yes}
      - {choice: gone, title: Missing, danger: glass}
faults:
  - {fault: cell.dead, title: The cell is dead, part: cell, says: It gives no current., masks: [bulb.open]}
  - {fault: switch.open, title: The switch is open, part: switch, says: It passes nothing.}
  - {fault: bulb.open, title: The bulb is open, part: bulb, says: Its wire is broken.}
sketch: {marks: {a: cell.pos}, lines: ["{a}---"]}
hand back: [guard]
---
tree: dark
title: Why is it dark
systems: [lamp]
judges: [cell.dead, switch.open, bulb.open]
begin: cell
steps:
  cell:   {test: cell_lit, then: {dead: ends, holds: bulb, unsure: bulb}}
  ends:   {test: ends, then: {clean: dead, green: clean, unsure: bulb}}
  clean:  {do: clean, stales: [cell_lit, ends], at most: 1, then: cell, else: bulb}
  dead:   {find: cell.dead, by: {cell_lit: [dead]}, then: bulb}
  bulb:   {test: bulb_lit, then: {none: open, there: glow, unsure: end}}
  open:   {find: switch.open, by: {cell_lit: [holds], bulb_lit: [none]}, then: end}
  glow:   {test: glow, then: {glows: end, dark: broken, unsure: end}}
  broken: {find: bulb.open, by: {bulb_lit: [there], glow: [dark]}, then: end}
---
repairs:
  - {repair: new-cell, title: Fit a cell, systems: [lamp], clears: [cell.dead], parts: [{part: cell, qty: 1}], minutes: 5, steps: [Fit it.], off: [The old cell to a collection point], kept: [The lid], checks: [cell_lit], cautions: [leak]}
  - {repair: new-switch, title: Fit a switch, systems: [lamp], clears: [switch.open], parts: [{part: switch, qty: 1}], minutes: 15, steps: [Fit it.], checks: [bulb_lit]}
  - {repair: new-bulb, title: Fit a bulb, systems: [lamp], clears: [bulb.open], parts: [{part: bulb, qty: 1}], minutes: 5, steps: [Fit it.], checks: [bulb_lit],
     law: [{cite: A rule, says: One must hold., ways: [This, That]}]}
---
cautions:
  - {caution: leak, title: Leaking cell, tell: Gloves on., basis: practice}
  - {caution: glass, title: No glass, tell: Do not hand it back., basis: practice}
safe:
  - {item: hands, title: Hands, settings: [{setting: clear, tell: Hands away.}]}
parts:
  - {part: cell, title: Cell}
  - {part: switch, title: Switch}
  - {part: bulb, title: Bulb}
meters:
  - meter: test
    title: Test meter
    true rms: false
    scales:
      - {measure: dc volts, full: 2, step: 0.001, percent: 0.5, counts: 2, input: 10e6}
`

const lampShop = `shop: {currency: USD, labour rate: "48.00", tax percent: "7.5", tax on: parts, warn above percent: 50}`

const lampPrices = `
prices: [{part: cell, grade: original, price: "2.00", stock: 1}, {part: switch, grade: original, price: "4.00", lead days: 2}]
worth: {lamp: "20.00"}
`

func lamp(t testing.TB) *tree.Library {
	t.Helper()
	var files []source.File
	for i, text := range splitDocuments(lampTrees) {
		files = append(files, source.File{Name: string(rune('a'+i)) + ".yaml", Text: text})
	}
	lib, issues := tree.Load(files)
	for _, i := range issues {
		t.Log(i.Render(nil))
	}
	require.Empty(t, issues)
	return lib
}

func splitDocuments(text string) []string {
	var out []string
	for text != "" {
		before, after, _ := cut(text)
		out, text = append(out, before), after
	}
	return out
}

func cut(text string) (before, after string, found bool) {
	const mark = "\n---\n"
	for i := 0; i+len(mark) <= len(text); i++ {
		if text[i:i+len(mark)] == mark {
			return text[:i+1], text[i+len(mark):], true
		}
	}
	return text, "", false
}

// log numbers events as a store would.
func log(events ...job.Event) []job.Event {
	for i := range events {
		events[i].Seq, events[i].At = int64(i+1), int64(i+1)
	}
	return events
}

func intake(lib *tree.Library) job.Event {
	return job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "lamp", Complaint: "dark", Machine: "green lamp", Owner: "A. Nyone", Words: "It went dark.",
		Label: map[string]float64{"volts": 1.5}, Celsius: 22, Meter: *lib.Meters["test"], History: []string{"stored"}, Digest: lib.Digest,
	}}
}

func volts(t testing.TB, test, text string) job.Event {
	t.Helper()
	r, err := measure.Parse(text, measure.DCVolts)
	require.NoError(t, err)
	return job.Event{Kind: job.KindRead, Read: &job.Read{Test: test, Reading: r}}
}

func seen(test, choice string) job.Event {
	return job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test, Choice: choice}}
}

// state folds a log and says where it stands, with what could be done.
func state(t testing.TB, lib *tree.Library, events []job.Event) (job.Facts, walk.Position, repair.Offers) {
	t.Helper()
	facts, err := job.Fold(events)
	require.NoError(t, err)
	p := walk.Where(lib, facts)
	book, issues := repair.LoadPrices(source.File{Name: "p", Text: lampPrices})
	require.Empty(t, issues)
	book.Shop, issues = shop.Load(source.File{Name: "s", Text: lampShop})
	require.Empty(t, issues)
	offers, err := repair.Paths(lib, p.System, p.Verdict, book, decimal.Zero, repair.Choices{})
	require.NoError(t, err)
	return facts, p, offers
}

func build(t testing.TB, lib *tree.Library, events []job.Event) Document {
	t.Helper()
	_, _, offers := state(t, lib, events)
	d, err := Build(lib, 14, events, offers)
	require.NoError(t, err)
	return d
}

// repairedLamp is a whole job: dark, the ends cleaned in vain, the cell found
// dead and replaced, the check reading and the guard.
func repairedLamp(t testing.TB, lib *tree.Library) []job.Event {
	t.Helper()
	base := []job.Event{
		intake(lib), volts(t, "cell_lit", "0.31"), seen("ends", "green"),
		{Kind: job.KindDone, Done: &job.Done{Work: "clean", Stales: []string{"cell_lit", "ends"}}},
		volts(t, "cell_lit", "0.350"), seen("ends", "clean"),
	}
	_, _, offers := state(t, lib, log(base...))
	chosen := offers.Paths[0].Chosen()
	return log(append(base,
		job.Event{Kind: job.KindChosen, Chosen: &chosen},
		job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-cell", Stales: []string{"cell_lit", "ends"}}},
		volts(t, "cell_lit", "1.480"), volts(t, "bulb_lit", "1.450"), seen("glow", "dark"), seen("guard", "whole"),
	)...)
}
