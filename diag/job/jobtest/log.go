package jobtest

import (
	"benchlead/diag/job"
	"benchlead/diag/measure"
)

// Intake is the event that begins an invented job.
func Intake() job.Event {
	return job.Event{At: 1_700_000_000_000_000, Kind: job.KindIntake, Intake: &job.Intake{
		System: "button-start-pack", Complaint: "silent", Machine: "grey mower by the door",
		Owner: "the tall neighbour", Words: "it just sits there",
		Label:     map[string]float64{"cells": 3, "pack_volts": 10.8},
		LabelText: map[string]string{"chemistry": "lithium-ion"},
		Celsius:   21.5,
		Meter: measure.Meter{ID: "plain", Title: "A plain meter", Scales: []measure.Scale{
			{Function: measure.DCVolts, FullScale: 20, Resolution: 0.01, Percent: 0.5, Counts: 2, InputOhms: 1e6},
		}},
		History: []string{"stored"}, Worth: "120.00", Digest: "d1",
	}}
}

// Volts is a reading of a test in DC volts.
func Volts(test string, volts float64, text string) job.Event {
	return job.Event{Kind: job.KindRead, Read: &job.Read{Test: test, Reading: measure.Reading{
		Function: measure.DCVolts, Kind: measure.Number, Value: volts, Step: 0.01, Text: text,
	}}}
}

// Relabelled puts the label of the machine of Intake right.
func Relabelled(label map[string]float64) job.Event {
	in := *Intake().Intake
	in.Label = label
	return job.Event{Kind: job.KindCorrected, Corrected: &in}
}

// Note is free text.
func Note(text string) job.Event {
	return job.Event{Kind: job.KindNoted, Noted: &job.Noted{Text: text}}
}

// Life is job 1 from intake to closing, with an event of every kind, numbered,
// each a minute after the one before.
func Life() []job.Event { return LifeOf(1) }

// Unbinned is a log without the events that move pieces of the parts bin, so that it
// can be any job's.
func Unbinned(log []job.Event) []job.Event {
	var out []job.Event
	for _, e := range log {
		if e.Binned == nil && e.Drawn == nil {
			e.Seq = int64(len(out)) + 1
			out = append(out, e)
		}
	}
	return out
}

// LifeOf is the same life for a job of any number: it draws from the bin what it
// put there itself, and a piece is named by its job.
func LifeOf(id int64) []job.Event {
	shown := []string{"pack.no-output"}
	log := []job.Event{
		Intake(),
		{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: map[string]string{"spark-lead": "off", "fuel": "off"}}},
		Volts("pack_rest", 0.37, "370mV"),
		{Kind: job.KindHeeded, Heeded: &job.Heeded{Caution: "lithium", Test: "pack_rest"}},
		{Kind: job.KindSeen, Seen: &job.Seen{Test: "pack_contacts", Choice: "dirty", Text: "d"}},
		{Kind: job.KindDone, Done: &job.Done{Work: "clean-contacts", Stales: []string{"pack_rest", "pack_contacts"}}},
		Volts("pack_rest", 0.36, ".36"),
		Volts("pack_rest", 3.6, "3.6"),
		{Kind: job.KindUndone, Undone: &job.Undone{Seq: 8}},
		{Kind: job.KindCant, Cant: &job.Cant{Test: "pack_held", Why: "can't reach"}},
		{Kind: job.KindCant, Cant: &job.Cant{Work: "charge-pack", Why: "no charger here"}},
		Note("smells of fuel"),
		{Kind: job.KindOpened},
		{Kind: job.KindTrees, Trees: &job.Trees{Digest: "d2", Changed: []string{"pack.weak is judged now"}}, Shown: &shown},
		{Kind: job.KindChosen, Chosen: &job.Chosen{
			Path: "repair", Repairs: []string{"replace-pack"}, Grades: []string{"original"},
			Quote: job.Quote{Currency: "EUR", Parts: "60.00", Labour: "10.00", Tax: "14.00", Total: "84.00", Minutes: 10},
		}},
		{Kind: job.KindAsked, Asked: &job.Asked{Approved: true, Who: "the owner", How: "by telephone", Total: "84.00", Ceiling: "90.00", Currency: "EUR"}},
		{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: "replace-pack", Term: "the rule", Way: "the second way"}},
		{Kind: job.KindLined, Lined: &job.Lined{Repair: "replace-pack", Line: "Take the old pack out."}},
		{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "replace-pack", Stales: []string{"pack_rest"}}},
		Volts("pack_rest", 12.3, "12.3"),
		{Kind: job.KindBinned, Binned: &job.Binned{Part: "dock-contacts", Shown: []string{"blades bright and springy"}, Asking: "22.00", Currency: "EUR", Place: "shelf 2"}},
		{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: job.PieceOf(id, 21), Part: "dock-contacts"}},
		Relabelled(map[string]float64{"cells": 4}),
		{Kind: job.KindServed, Served: &job.Served{Service: "fresh-fuel", Left: true}},
		{Kind: job.KindClosed, Closed: &job.Closed{
			Outcome: job.Proved, Verdict: "The pack gave nothing.",
			Found: []string{"pack.no-output"}, Cleared: []string{"charger.no-output"}, Untested: []string{"pack.weak"},
		}},
	}
	for i := range log {
		log[i].Seq = int64(i) + 1
		log[i].At = log[0].At + int64(i)*60_000_000
	}
	return log
}
