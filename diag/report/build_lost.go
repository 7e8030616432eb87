package report

import (
	"maps"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/source"
)

// lostVerdict stands where today's trees know nothing of the kind of machine.
const lostVerdict = "The trees no longer know this kind of machine. What was answered and concluded is shown as it was recorded."

// lostReadings are the answers to tests that the library no longer has, as they
// were typed: without bands, and with the test's id for a title.
func (s *story) lostReadings(d *Document) {
	for _, id := range slices.Sorted(maps.Keys(s.facts.Answers)) {
		if s.system.Test(id) != nil {
			continue
		}
		line := Reading{Test: source.CleanLine(id), Title: source.CleanLine(id)}
		for _, a := range s.facts.Answers[id] {
			switch {
			case a.Read != nil:
				line.Function, line.Unit = string(a.Read.Reading.Function), a.Read.Reading.Function.Base()
				line.Taken = append(line.Taken, s.lostTaken(a, measure.FormatReading(a.Read.Reading, line.Unit, 1)))
			case a.Seen != nil:
				line.Taken = append(line.Taken, s.lostTaken(a, a.Seen.Choice))
			}
		}
		if len(line.Taken) > 0 {
			d.Readings = append(d.Readings, line)
		}
	}
}

func (s *story) lostTaken(a job.Answer, value string) Taken {
	t := Taken{Value: source.CleanLine(value), seen: true}
	for _, c := range s.chapters {
		if c.from < a.Seq {
			t.After = c.after
		}
	}
	t.plain = plainly{seen: true, value: t.Value}
	return t
}

// lostLabel is the label as it was copied, by the ids of its fields.
func lostLabel(d *Document, in *job.Intake) {
	for _, id := range slices.Sorted(maps.Keys(in.Label)) {
		d.Label = append(d.Label, LabelLine{Field: source.CleanLine(id), Title: source.CleanLine(id), Value: bare(in.Label[id])})
	}
	for _, id := range slices.Sorted(maps.Keys(in.LabelText)) {
		d.Label = append(d.Label, LabelLine{Field: source.CleanLine(id), Title: source.CleanLine(id), Value: source.CleanLine(in.LabelText[id])})
	}
}
