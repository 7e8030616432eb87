package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

func TestBuildBeforeRepair(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, log(intake(lib), volts(t, "cell_lit", "0.310"), seen("ends", "clean")))

	require.Equal(t, []string{"green lamp", "A. Nyone", "lamp", "Hand lamp with one cell", "It stays dark", "It went dark."},
		[]string{d.Machine, d.Owner, d.Kind, d.System, d.Complaint, d.Words})
	require.Equal(t, []string{"Stood for a season"}, d.History)
	require.Equal(t, []LabelLine{
		{Field: "volts", Title: "Volts on the cell", Value: "1.5 V"},
		{Field: "kind", Title: "Kind of cell", Value: "zinc", Default: true},
	}, d.Label)
	require.Equal(t, []string{"22 °C", "Test meter"}, []string{d.Bench, d.Meter})

	require.Len(t, d.Findings, 1)
	require.Equal(t, "cell.dead", d.Findings[0].Fault)
	// 0.5 % of 0.310 + 2 counts of 0.001 = 0.00355, /sqrt 3 x 2 = 0.0041 V.
	require.Equal(t, []string{"Cell while lit: 0.310 ± 0.004 V, dead"}, d.Findings[0].Evidence)
	require.Equal(t, []FaultLine{{Fault: "bulb.open", Title: "The bulb is open", Because: "until this is repaired: the cell is dead"}}, d.Masked)
	require.Equal(t, []FaultLine{{Fault: "switch.open", Title: "The switch is open"}}, d.Untested)
	require.Equal(t, []Caution{{Title: "Leaking cell", Tell: "Gloves on."}}, d.Dangers)
	require.Equal(t, SafetyOpen, d.Safety[0].State)
	require.Empty(t, d.Now)
	require.Nil(t, d.Work)

	r := d.Readings[0]
	require.Equal(t, []string{"cell_lit", "dc volts", "Plus of the cell", "Minus of the cell", "Switch on", "Lid off", "1.2 to 1.65 V (at the label)"},
		[]string{r.Test, r.Function, r.Red, r.Black, r.State, r.With, r.Healthy})
	require.Equal(t, "Bright metal", d.Readings[1].Taken[0].Value)

	// 2.00 + 48.00 x 5/60 = 4.00 + 7.5 % of 2.00 = 0.15: 6.15.
	require.Equal(t, "Fit a cell (original)", d.Offers[0].Title)
	require.Equal(t, "6.15 USD", d.Offers[0].Total)
	require.Contains(t, d.Offers[0].Notes, "could still cost, so buy nothing for these yet: the bulb is open, the switch is open")
	require.Equal(t, []string{
		"About green lamp: we found: the cell is dead.",
		"The cheapest way to repair it comes to 6.15 USD with tax, 5 minutes of work. Shall we? More may come: 2 things are not tested yet.",
	}, d.Phone)
	require.NotEmpty(t, d.Defer)
}

func TestBuildAfterRepair(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, repairedLamp(t, lib))

	require.Equal(t, "cell.dead", d.Findings[0].Fault, "what was found stays in the report")
	require.Contains(t, d.Verdict, "the cell is dead")
	require.NotContains(t, d.Now, "cell is dead")
	require.Equal(t, "bulb.open", d.Still[0].Fault, "the repair unmasked a second fault")

	after := []string{}
	for _, taken := range d.Readings[0].Taken {
		after = append(after, taken.After+"|"+taken.Value)
	}
	require.Equal(t, []string{
		// Written as 0.31: the second place is the last, which adds 0.005/sqrt 3.
		"|0.310 ± 0.007 V", "Clean the ends|0.350 ± 0.004 V", "Fit a cell|1.480 ± 0.011 V",
	}, after)
	require.Len(t, d.Proof, 1)
	require.Equal(t, []string{"cell_lit", "Cell while lit", "0.350 ± 0.004 V, dead", "1.480 ± 0.011 V, holds", "1.2 to 1.65 V (at the label)"},
		[]string{d.Proof[0].Test, d.Proof[0].Title, d.Proof[0].Before, d.Proof[0].After, d.Proof[0].Healthy})

	require.Equal(t, repair.ChooseRepair, d.Work.Path)
	require.Equal(t, RepairLine{
		Repair: "new-cell", Title: "Fit a cell", Minutes: 5, Done: true,
		Off: []string{"The old cell to a collection point"}, Kept: []string{"The lid"},
		Scrap: []string{}, New: []string{}, Again: []string{}, Lines: []string{}, clears: []string{"cell.dead"},
	}, d.Work.Repairs[0])
	require.Equal(t, []string{"Cell, original"}, d.Work.Grades)
	require.Equal(t, "6.15", d.Work.Quote.Total)
	require.Equal(t, SafetyLine{Test: "guard", Title: "Glass over the bulb", Result: "Whole", State: SafetyProved}, SafetyLine{Test: d.Safety[0].Test, Title: d.Safety[0].Title, Result: d.Safety[0].Result, State: d.Safety[0].State})
	require.Empty(t, d.Offers, "a path is chosen")
}

func TestSafetyFailed(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, log(intake(lib), seen("guard", "gone")))
	require.Equal(t, SafetyFailed, d.Safety[0].State)
	require.Equal(t, "No glass", d.Dangers[0].Title)
}

// A reading that was taken back is not in the report, though it stood in the
// log when the repair began.
func TestTakenBackIsNotShown(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, log(
		intake(lib), volts(t, "bulb_lit", "0.100"), job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: 2}}, volts(t, "cell_lit", "0.300"),
	))
	require.Len(t, d.Readings, 1)
	require.Equal(t, "cell_lit", d.Readings[0].Test)
}

func TestUpToTakesBackLaterUndone(t *testing.T) {
	lib := lamp(t)
	events := log(
		intake(lib), volts(t, "bulb_lit", "0.100"), seen("ends", "clean"),
		job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: 2}},
	)
	facts, err := job.Fold(upTo(events, 3))
	require.NoError(t, err)
	require.Empty(t, facts.Answers["bulb_lit"])
	require.NotEmpty(t, facts.Answers["ends"])
}

// What a closed job concluded stays, whatever the trees say later.
func TestClosedIsFrozen(t *testing.T) {
	lib := lamp(t)
	events := []job.Event{intake(lib), volts(t, "cell_lit", "0.310"), {Kind: job.KindClosed, Closed: &job.Closed{
		Outcome: job.Unrepaired, Why: "owner said no", Verdict: "As it was said then.",
		Found: []string{"cell.dead", "gone.fault"}, Cleared: []string{"switch.open"}, Untested: []string{"bulb.open"},
	}}}
	other := *lib
	other.Digest = "changed"
	d := build(t, &other, log(events...))
	require.Equal(t, "As it was said then.", d.Verdict)
	require.Equal(t, "returned unrepaired", d.Outcome)
	require.Equal(t, "owner said no", d.Why)
	require.Equal(t, []string{"cell.dead", "gone.fault"}, []string{d.Findings[0].Fault, d.Findings[1].Fault})
	require.Equal(t, "switch.open", d.Cleared[0].Fault)
	require.Empty(t, d.Masked)
	require.Equal(t, "bulb.open", d.Untested[0].Fault)
	require.Contains(t, d.Notes[0], "trees were changed")
}

func TestLawOfTheChosenRepair(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, log(intake(lib), volts(t, "cell_lit", "1.500"), volts(t, "bulb_lit", "1.500"),
		job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-bulb", "no-such"}, Grades: []string{"bulb=bin", "odd"}}}))
	require.Equal(t, []Law{{Cite: "A rule", Says: "One must hold.", Ways: []string{"This", "That"}}}, d.Law)
	require.Equal(t, []string{"Bulb, bin", "odd"}, d.Work.Grades)
	require.Equal(t, "no-such", d.Work.Repairs[1].Title)
}

func TestBuildRefuses(t *testing.T) {
	lib := lamp(t)
	for name, events := range map[string][]job.Event{
		"nothing":   nil,
		"no intake": log(seen("ends", "clean")),
		"a gap":     {{Seq: 2, Kind: job.KindOpened}},
	} {
		_, err := Build(lib, 9, events, repair.Offers{})
		require.ErrorContains(t, err, "job 9", name)
	}
}

// A second repair for a fault that the first unmasked: the findings and the
// readings before are still those of the first.
func TestSecondRepairKeepsTheFirstFindings(t *testing.T) {
	lib := lamp(t)
	events := append(repairedLamp(t, lib),
		job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-bulb"}}},
		job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-bulb", Stales: []string{"bulb_lit", "glow"}}},
	)
	d := build(t, lib, log(events...))
	require.Equal(t, "cell.dead", d.Findings[0].Fault)
	require.Len(t, d.Proof, 2)
	require.Equal(t, "0.350 ± 0.004 V, dead", d.Proof[0].Before)
	require.Equal(t, []string{"bulb_lit", "", ""}, []string{d.Proof[1].Test, d.Proof[1].Before, d.Proof[1].After})
}

// A check that nobody took again has no "after", even when the old reading was
// not made unknown.
func TestProofNeedsANewReading(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, log(intake(lib), volts(t, "cell_lit", "0.310"),
		job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-cell"}}},
		job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-cell"}},
	))
	require.Equal(t, "0.310 ± 0.004 V, dead", d.Proof[0].Before)
	require.Empty(t, d.Proof[0].After)
}

// With the job's own trees the readings speak; only with others does the log.
func TestRecordedFindingsOnlyWithOtherTrees(t *testing.T) {
	lib := lamp(t)
	events := repairedLamp(t, lib)
	events[1].Shown = &[]string{"switch.open"}
	require.Equal(t, "cell.dead", build(t, lib, events).Findings[0].Fault)
	other := *lib
	other.Digest = "changed"
	d := build(t, &other, events)
	require.Len(t, d.Findings, 1)
	require.Equal(t, "switch.open", d.Findings[0].Fault)
	require.Contains(t, d.Findings[0].Evidence[0], "as recorded")
}

// A machine without the thing has passed nothing, and nothing keeps it from being used.
func TestWhatAMachineHasNotIsNotCalledPassed(t *testing.T) {
	lib := lamp(t)
	d := build(t, lib, log(intake(lib), seen("guard", "never")))
	require.Equal(t, SafetyAbsent, d.Safety[0].State)
	s := safe(d)
	require.Equal(t, "Glass over the bulb: not applicable (none was ever fitted).", s.Items[0].Text)
	require.Empty(t, s.Says)
}
