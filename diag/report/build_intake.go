package report

import (
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/walk"
)

func (s *story) intake(d *Document) {
	in := s.facts.Intake
	d.Machine, d.Owner, d.Words = source.CleanLine(in.Machine), source.CleanLine(in.Owner), source.CleanLine(in.Words)
	d.Kind, d.System = s.system.Machine, s.system.Title
	d.Complaint = source.CleanLine(in.Complaint)
	if c := s.system.Complaint(in.Complaint); c != nil {
		d.Complaint = c.Title
	}
	for _, name := range in.History {
		d.History = append(d.History, s.historyTitle(name))
	}
	d.Bench = measure.Format(in.Celsius, "°C", 1, 0)
	d.Meter = source.CleanLine(in.Meter.Title)
	if d.Meter == "" {
		d.Meter = source.CleanLine(in.Meter.ID)
	}
	if s.lost {
		lostLabel(d, in)
		return
	}
	s.label(d)
}

func (s *story) historyTitle(name string) string {
	for _, h := range s.system.History {
		if h.Name == name && h.Title != "" {
			return h.Title
		}
	}
	return source.CleanLine(name)
}

func (s *story) label(d *Document) {
	values, defaulted := walk.Values(s.system, *s.facts.Intake)
	for _, f := range s.system.Label {
		line := LabelLine{Field: f.ID, Title: f.Ask, Default: slices.Contains(defaulted, f.ID)}
		if number, ok := values.Numbers["label."+f.ID]; ok {
			line.Value = measure.Format(number, f.Unit, f.PerUnit, 0)
		} else {
			line.Value = source.CleanLine(values.Words["label."+f.ID])
		}
		if line.Value == "" {
			line.Value = "not known"
		}
		d.Label = append(d.Label, line)
	}
}
