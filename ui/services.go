package ui

import (
	"context"
	"fmt"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// servicesPrompt offers what is usual before a machine is handed back.
func (s *Session) servicesPrompt(p walk.Position) Prompt {
	out := Prompt{
		Stage: p.Stage, Title: "Usual work before it is handed back",
		Tell: []string{"The repair is done. None of this is needed for it."},
		Ask:  "the number of what is done, pass and a number for one left out, or pass for the rest; list says how",
	}
	minutes := 0
	var care []string
	for i, l := range p.Services {
		it := Item{Number: i + 1, Text: serviceText(l), Tell: l.Service.Tell, Mark: MarkOpen}
		switch {
		case l.Left:
			it.Mark = MarkLeft
		case l.Done:
			it.Mark = MarkDone
		default:
			minutes += l.Service.Minutes
			care = append(care, l.Service.Cautions...)
		}
		out.List = append(out.List, it)
	}
	out.Cost, out.Caution = Minutes(float64(minutes)), s.cautionWords(care)
	return out
}

func serviceText(l walk.ServiceLine) string {
	text := l.Service.Title
	if took := Minutes(float64(l.Service.Minutes)); took != "" {
		text += " (" + took + ")"
	}
	return text
}

// serve records services as done, or as left out.
func (s *Session) serve(ctx context.Context, left bool, list ...Item) (Reply, error) {
	events, said := s.served(left, list)
	return Reply{Said: said}, s.record(ctx, events...)
}

// served are services done, or left out, as events and in words.
func (s *Session) served(left bool, list []Item) (events []job.Event, said []string) {
	word := ": done."
	if left {
		word = ": left out."
	}
	for _, it := range list {
		service := s.pos.Services[it.Number-1].Service
		events = append(events, job.Event{Kind: job.KindServed, Served: &job.Served{Service: service.ID, Left: left}})
		said = append(said, service.Title+word)
	}
	return events, said
}

// leaveOut leaves one service out, by its number, or all that are open. Why, if it
// is said, is noted.
func (s *Session) leaveOut(ctx context.Context, p walk.Position, text string) (Reply, error) {
	list := s.servicesPrompt(p).List
	if isDigits(text) {
		it, err := itemOf(list, text)
		if err != nil {
			return Reply{}, err
		}
		return s.serve(ctx, true, it)
	}
	open := slices.DeleteFunc(list, func(it Item) bool { return !it.Open() })
	events, said := s.served(true, open)
	if text != "" {
		note := fmt.Sprintf("Services left out: %s.", trimStop(text))
		events = append([]job.Event{{Kind: job.KindNoted, Noted: &job.Noted{Text: note}}}, events...)
	}
	return Reply{Said: said}, s.record(ctx, events...)
}

// serviceTitle is the title of a service; its id when the trees have it no longer.
func (s *Session) serviceTitle(id string) string {
	if v := s.bench.Library.Services[id]; v != nil {
		return v.Title
	}
	return id
}
