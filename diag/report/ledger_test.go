package report

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// The bench copy holds all that is on record of money, services and pieces.
func TestTheBenchCopyKeepsTheLedger(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, handedBack(t, lib))
	text := atOnce(written(t, Text, d))
	for _, want := range []string{
		"State: ready. Next: Tell the owner that it can be picked up",
		"[x] Fit a cell off: The old cell to a collection point kept: The lid [x] Fit it. part: Cell, original quote: parts 2.00, labour 4.00",
		"PARTS OF THE QUOTE - 1 x Cell, original, 2.00 each, in hand; shelf 4",
		"SETTINGS BEHIND THE QUOTE Diagnostic fee: 3.00 Labour rate: 48.00 Original warranty days: 90 Ranked by: total",
		"THE OWNER'S ANSWERS [x] Approved up to 10.00 USD by A. Nyone, by telephone on 1 January 1970 (the estimate was 6.15 USD). Not wanted: Fit a bulb",
		"SERVICES [x] A drop of oil on the hinge [ ] Glass polished, left out",
		"PARTS BIN - In: Switch, piece 14.9, with its wire, asking 1.50 USD, at drawer 2 Shown: 0.2 ohm closed - Out: Bulb, piece 3-9",
		"WARRANTY Cell, original: 90 days",
	} {
		require.Contains(t, text, want)
	}
	page := atOnce(written(t, HTML, d))
	quiet(t, page)
	for _, want := range []string{
		"<h2>Parts of the quote</h2>", "<td>Original warranty days</td><td>90</td>", "[x] A drop of oil on the hinge", "[ ] Glass polished, left out",
		"In: Switch, piece 14.9, with its wire", "Not wanted: Fit a bulb", "[x] Fit it.",
	} {
		require.Contains(t, page, want)
	}
}

func TestTheObjectHoldsTheLedger(t *testing.T) {
	lib := fullLamp(t)
	var back struct {
		Asked    []map[string]any `json:"asked"`
		Services []map[string]any `json:"services"`
		In       []map[string]any `json:"to_the_bin"`
		Out      []map[string]any `json:"from_the_bin"`
		Warranty []map[string]any `json:"warranty"`
		Work     struct {
			Parts   []map[string]any    `json:"parts"`
			Shop    []map[string]string `json:"shop"`
			Aim     string              `json:"aim"`
			Above   bool                `json:"above"`
			Repairs []struct {
				Checklist []string `json:"checklist"`
			} `json:"repairs"`
		} `json:"work"`
	}
	require.NoError(t, json.Unmarshal([]byte(written(t, JSON, build(t, lib, handedBack(t, lib)))), &back))
	require.Equal(t, "10.00 USD", back.Asked[0]["ceiling"])
	require.Equal(t, []any{"hinge", true}, []any{back.Services[0]["service"], back.Services[1]["left"]})
	require.Equal(t, []any{"drawer 2", "3-9", 90.0}, []any{back.In[0]["place"], back.Out[0]["piece"], back.Warranty[0]["days"]})
	require.Equal(t, []any{1.0, "2.00", "original"}, []any{back.Work.Parts[0]["qty"], back.Work.Parts[0]["each"], back.Work.Parts[0]["grade"]})
	require.Equal(t, map[string]string{"name": "diagnostic fee", "value": "3.00"}, back.Work.Shop[0])
	require.Equal(t, []string{"Fit it."}, back.Work.Repairs[0].Checklist)
	require.Equal(t, "total", back.Work.Aim)
	require.False(t, back.Work.Above)
}

// Approval is for the whole job: 6.15 + 18.00 is above 20, below 25.
func TestTheCeilingIsForTheWholeJob(t *testing.T) {
	lib := fullLamp(t)
	for ceiling, above := range map[string]bool{"20.00": true, "24.15": false, "25": false, "no number": false} {
		d := build(t, lib, log(append(foundDead(t, lib), said(true, ceiling), newCell(), ticked("new-cell", "cell_lit"), volts(t, "cell_lit", "0.310"), candles())...))
		require.Equal(t, above, d.Work.Above, ceiling)
		if above {
			require.Contains(t, atOnce(written(t, Text, d)), "The repairs come to more than was approved. Ask again")
		}
	}
}

func TestWarrantyIsOnlyWhatTheSettingsSay(t *testing.T) {
	shop := []Setting{{"aftermarket warranty days", "30"}, {"bin markup percent", "5"}, {"original warranty days", "soon"}}
	days, promised := warrantyDays(shop, "aftermarket")
	require.True(t, promised)
	require.Equal(t, 30, days)
	for _, grade := range []string{"bin", "original", ""} {
		_, promised := warrantyDays(shop, grade)
		require.False(t, promised, grade)
	}
	// A part of a repair that is not done is not fitted.
	lib := fullLamp(t)
	require.Empty(t, build(t, lib, log(append(foundDead(t, lib), newCell())...)).Warranty)
}

// A record of before knows part and grade only.
func TestAnOldRecordNamesItsParts(t *testing.T) {
	lib := fullLamp(t)
	old := job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-cell"}, Grades: []string{"cell=aftermarket", "odd"}}}
	d := build(t, lib, log(append(foundDead(t, lib), old, ticked("new-cell", "cell_lit"))...))
	require.Equal(t, []PartLine{{Part: "cell", Title: "Cell", Grade: "aftermarket", InHand: true, fitted: true}}, d.Work.Parts)
	require.NotContains(t, written(t, Text, d), "PARTS OF THE QUOTE")
	require.Contains(t, atOnce(written(t, OwnerText, d)), "Part fitted: Cell (new, from another maker).")
}

// What was taken back is not done, not confirmed and not thrown away.
func TestWorkThatWasTakenBackIsNotDone(t *testing.T) {
	lib := fullLamp(t)
	events := append(foundDead(t, lib), candles(),
		job.Event{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: "candle", Term: "A rule", Way: "It hangs"}}, ticked("candle", "glow"))
	n := int64(len(events))
	d := build(t, lib, log(append(events,
		job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: n}}, job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: n - 1}})...))
	require.False(t, d.Work.Repairs[0].Done)
	for _, l := range d.Law {
		require.Empty(t, l.Met)
	}
	require.False(t, d.Work.Parts[0].fitted)
}

// A deposit stands beside the total for the owner and for the bench, and is not in it.
func TestADepositIsToldBesideTheTotal(t *testing.T) {
	lib := fullLamp(t)
	cell := newCell()
	cell.Chosen.Quote.Deposit = "18.00"
	d := build(t, lib, log(append(foundDead(t, lib), cell)...))
	require.Contains(t, atOnce(written(t, OwnerText, d)), "= Total: 6.15 USD Deposit on top, back with the old part: 18.00 USD")
	require.Contains(t, atOnce(written(t, Text, d)), "total 6.15 USD (5 minutes); deposit 18.00 USD on top, back with the old part")
	require.Contains(t, written(t, HTML, d), "deposit 18.00 USD on top")
	d = build(t, lib, log(append(foundDead(t, lib), newCell())...))
	require.NotContains(t, strings.ToLower(written(t, Text, d)+written(t, OwnerText, d)), "deposit")
}

// Whose prices a quote was worked out with is what was frozen with it; where that was
// not recorded, nothing is said of it.
func TestTheNoteOfPricesIsThatOfTheQuote(t *testing.T) {
	lib := fullLamp(t)
	cell := newCell()
	cell.Chosen.Shop = map[string]string{"prices from": "Prices of winter.csv"}
	d := build(t, lib, log(append(foundDead(t, lib), cell)...))
	require.Equal(t, "Prices of winter.csv.", d.MoneyNote)
	require.Contains(t, atOnce(written(t, OwnerText, d)), "Prices of winter.csv.")
	require.Empty(t, build(t, lib, log(append(foundDead(t, lib), newCell())...)).MoneyNote)
}
