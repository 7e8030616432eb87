package report

import (
	"cmp"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// corrections are what of a machine was put right after it was taken in, a line each.
func corrections(sys *tree.System, events []job.Event) []string {
	gone := undone(events)
	before := events[0].Intake
	var out []string
	for _, e := range events {
		if e.Corrected != nil && !gone[e.Seq] {
			out = append(out, Differences(sys, *before, *e.Corrected)...)
			before = e.Corrected
		}
	}
	return out
}

// Differences says, a line each, in what two intakes of a system differ.
func Differences(sys *tree.System, before, after job.Intake) []string {
	was, is := Described(sys, before), Described(sys, after)
	titles := []string{"Complaint", "Machine", "Owner", "Before it"}
	for _, f := range sys.Label {
		titles = append(titles, f.Ask)
	}
	titles = append(titles, "Bench", "Meter", "Worth, running")
	var out []string
	for i, title := range titles {
		if was[i] != is[i] {
			out = append(out, title+": "+is[i]+"; it was "+was[i])
		}
	}
	return out
}

// What Described says of what an intake says nothing of. A label that was not read counts
// as what is usual.
const (
	notSaid = "not said"
	NotRead = "not read"
)

// Described is what an intake says of a machine, in the order in which its questions are
// asked: the complaint, the machine and its owner in the shop's words, what changed just
// before, each field of the label, the temperature of the bench, the meter, what the
// machine is worth.
func Described(sys *tree.System, in job.Intake) []string {
	words := func(text string) string {
		if text = source.CleanLine(text); text == "" {
			return notSaid
		}
		return text
	}
	complaint := in.Complaint
	if c := sys.Complaint(complaint); c != nil {
		complaint = c.Title
	}
	var before []string
	for _, h := range sys.History {
		if slices.Contains(in.History, h.Name) {
			before = append(before, cmp.Or(h.Title, h.Name))
		}
	}
	out := []string{words(complaint), words(in.Machine), words(in.Owner), words(strings.Join(before, "; "))}
	for _, f := range sys.Label {
		said := NotRead
		if v, ok := in.Label[f.ID]; ok {
			said = measure.Format(v, f.Unit, f.PerUnit, 0)
		} else if word := in.LabelText[f.ID]; word != "" {
			said = source.CleanLine(word)
		}
		out = append(out, said)
	}
	return append(out, measure.Format(in.Celsius, "°C", 1, 0), words(cmp.Or(in.Meter.Title, in.Meter.ID)), words(in.Worth))
}
